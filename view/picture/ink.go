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
)

// Theme maps inks to colours, for a dark or a light terminal.
type Theme struct {
	Name    string
	palette [inkCount]shade
}

// shade is a colour in the 256-colour palette and its stand-in among the 16.
type shade struct{ of256, of16 uint8 }

// Dark and Light are the two themes. Their text colours keep a contrast of at
// least 4.5 : 1 against the ground they are meant for, faint ones 3 : 1.
var (
	Dark = &Theme{Name: "dark", palette: [inkCount]shade{
		Text: {252, 7}, Faint: {243, 8}, Strong: {231, 15}, Current: {221, 11}, North: {203, 9}, South: {75, 12},
		Alert: {215, 13}, Good: {114, 10}, Band: {237, 8}, OnPole: {16, 0},
		leadInks: {246, 8}, {173, 3}, {203, 9}, {208, 3}, {227, 11}, {77, 10}, {75, 12}, {141, 13}, {249, 7}, {231, 15}, {218, 13}, {179, 3}, {80, 14}, {252, 7}}}
	Light = &Theme{Name: "light", palette: [inkCount]shade{
		Text: {236, 0}, Faint: {244, 8}, Strong: {16, 0}, Current: {130, 3}, North: {160, 1}, South: {26, 4},
		Alert: {125, 5}, Good: {28, 2}, Band: {253, 7}, OnPole: {231, 15},
		leadInks: {16, 0}, {94, 3}, {160, 1}, {166, 3}, {136, 3}, {28, 2}, {26, 4}, {91, 5}, {241, 8}, {247, 8}, {168, 5}, {94, 3}, {30, 6}, {245, 8}}}
)
