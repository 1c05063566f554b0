package picture

// Ink is a colour by what it stands for; a Theme says how it looks. Colour is
// never the only sign: each use also has its own letter, mark or place.
type Ink uint8

const (
	Default Ink = iota // the terminal's own
	Text
	Faint   // what is there but not at work
	Strong  // what to look at first
	Current // a coil that carries current, the cursor, the field
	North   // a north pole
	South   // a south pole
	Alert   // something is wrong or not known
	Good    // something is proven right
	Band    // the background of the cursor's column
	OnPole  // a letter upon a pole
	leadInks
)

// The inks of the lead colours follow, in the order of IEC 60757's table 1.
var leadCodes = [...]string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"}

const inkCount = int(leadInks) + len(leadCodes)

// LeadInk gives the ink of a lead colour's code; Text for a name that is none.
func LeadInk(code string) Ink {
	for i, c := range leadCodes {
		if c == code {
			return leadInks + Ink(i)
		}
	}
	return Text
}

// Depth is how many colours the terminal shows.
type Depth int

const (
	NoColour Depth = iota
	Colours16
	Colours256
	TrueColour
)

// Theme maps inks to colours, for a dark or a light terminal.
type Theme struct {
	Name    string
	palette [inkCount]shade
}

// shade is an ink as a terminal shows it: in true colour, among the 256 colours,
// whose upper 240 are the same everywhere, and among the 16, which are the
// terminal's own.
type shade struct {
	rgb   uint32
	of256 uint8
	of16  uint8
}

// Dark and Light are the two themes. Whatever is text keeps a contrast of at least
// 4.5 : 1 against every ground that it is drawn on, other marks 3 : 1; a test
// measures that, and says which grounds are reckoned with. Of the 16 colours
// nobody knows what they look like, so text there keeps the terminal's own.
var (
	Dark = &Theme{Name: "dark", palette: [inkCount]shade{
		Text: {0xd4d4d4, 252, 7}, Faint: {0xa4a8ad, 248, 8}, Strong: {0xffffff, 231, 15}, Current: {0xffd75f, 221, 11},
		North: {0xff6b63, 203, 9}, South: {0x62b0ff, 75, 12}, Alert: {0xffb05c, 215, 13}, Good: {0x7fd67f, 114, 10},
		Band: {0x343a42, 237, 8}, OnPole: {0x000000, 16, 0},
		leadInks: {0x9a9a9a, 246, 8}, // BK: black itself is not seen on black
		{0xd09868, 173, 3}, {0xff6b63, 203, 9}, {0xff9a3d, 208, 3}, {0xf5e663, 227, 11}, {0x5fd068, 77, 10}, {0x6ab0ff, 75, 12},
		{0xb79bff, 141, 13}, {0xb4b4b4, 249, 7}, {0xffffff, 231, 15}, {0xffaed8, 218, 13}, {0xd8b25a, 179, 3}, {0x4fd0c8, 80, 14}, {0xd0d4da, 252, 7}}}
	Light = &Theme{Name: "light", palette: [inkCount]shade{
		Text: {0x303030, 236, 0}, Faint: {0x565b60, 240, 8}, Strong: {0x000000, 16, 0}, Current: {0x7a5200, 94, 3},
		North: {0xc60000, 160, 1}, South: {0x0057c2, 26, 4}, Alert: {0xa3005a, 125, 5}, Good: {0x006200, 22, 2},
		Band: {0xdde3ea, 254, 7}, OnPole: {0xffffff, 231, 15},
		leadInks: {0x000000, 16, 0}, {0x7a4a1e, 52, 3}, {0xc60000, 160, 1}, {0xa84300, 94, 3}, {0x736000, 58, 3}, {0x00690f, 22, 2}, {0x0057c2, 26, 4},
		{0x6a2ec0, 91, 5}, {0x585858, 240, 8}, {0x646464, 242, 8}, // WH: white itself is not seen on white
		{0xb0246e, 125, 5}, {0x7a5a00, 58, 3}, {0x00676b, 23, 6}, {0x5e666e, 241, 8}}}
)
