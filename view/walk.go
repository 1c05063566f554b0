package view

import (
	"strings"

	"coilwalk/view/action"
	"coilwalk/view/hold"
	"coilwalk/view/keys"
	"coilwalk/view/picture"
	"coilwalk/view/practice"
	"coilwalk/view/tour"
)

// walk is the screen on which one row after another is energised.
type walk struct {
	live bool // bound to a real motor

	tour      *tour.Tour        // the walk-through; nil when it is not on
	practised *practised        // nil when no practice is on
	sitting   *practice.Sitting // of practice, from one to the next; nil before the first

	told   told
	dial   picture.Dial
	gap    picture.Gap
	curve  picture.Curve
	traces picture.Traces
}

func (w *walk) name() string { return "Walk" }

// places are the keys of the bench, made from the list of what can be done there;
// and what only a real motor takes.
func (w *walk) places() []*place {
	held := newPlace("live", "on Walk, bound to a real motor",
		deed{"arm", "a", "arm", "arm the real motor; it drops out after a minute without a key", func(e *Explorer) { e.live.arms(e, hold.Armed) }})
	held.With, held.when = []string{"walk"}, func() bool { return w.live }

	var deeds []deed
	for _, a := range action.All() {
		deeds = append(deeds, deed{a.Word, strings.Join(a.Keys, " "), footWords[a.Word], a.Says, func(e *Explorer) { w.does(e, a) }})
	}
	const learn = "first steps, note by note; practice: what will a row do?"
	deeds = append(deeds, deed{"slow-motion", "z", "", "play rows as the rotor takes them, 2 to 1000 times slower", (*Explorer).slower},
		deed{"tour", "i", "", learn, w.beginTour}, deed{"practice", "e", "", learn, w.practise})
	p := newPlace("walk", "on Walk", deeds...)
	for i := range p.Bindings {
		p.Bindings[i].Fixed = p.Bindings[i].Word == "stop"
	}
	p.when = func() bool { return w.practised == nil }
	p.drops = func(word string) bool {
		return w.live && (word == "slow-motion" || word == "tour" || word == "practice")
	}
	p.hides = w.refuses
	p.tells = func(b keys.Binding) keys.Binding {
		if says := liveSays[b.Word]; w.live && says != "" {
			b.Says = says
		}
		if w.live && b.Word == "stop" {
			b.Short = "off"
		}
		return b
	}
	return []*place{held, w.tourPlace(), w.practicePlace(), p}
}

// refuses says whether a real motor answers an action only by saying why not.
func (w *walk) refuses(word string) bool {
	says, other := liveSays[word]
	return w.live && other && says == ""
}

// does carries an action out, or asks for what it needs first.
func (w *walk) does(e *Explorer, a action.Action) {
	if a.Ask != "" && !w.refuses(a.Word) {
		e.askFor(a)
		return
	}
	e.act(a, nil)
}

// footWords are the short words of the actions that the foot shows.
var footWords = map[string]string{"next": "next", "back": "back", "rewind": "rewind", "run": "run", "stop": "stop", "mode": "mode", "swap": "swap", "reverse": "reverse", "go": "go to"}

// liveSays is what actions do to a real motor where that is something else; ""
// where they do nothing.
var liveSays = map[string]string{"next": "energise the next row, for real", "back": "energise the row before, for real; the motor turns back",
	"run": "run, or stop and hold the last row", "stop": "all coils off, at once, and disarmed; always", "swap": "say that the leads on two outputs were swapped (coils off)",
	"fault": "put a fault into the picture, to see what it would look like", "rewind": "", "go": "", "restart": "count from 0 again (coils off)"}

// layout is where the parts of the screen stand.
type layout struct {
	coilsW, numbersX, numbersW int
	mainY, mainH               int
	dialX, dialY, dialH        int
	curveX, curveY             int
	curveW, curveH             int // 0 where the torque curve has no room
	messageY, gapY, tracesY    int
	loose                      bool // there is room for titles and blank lines
}

// Heights of the parts below the main one.
const (
	tracesHeight = 5  // the cursor and four ends
	labelWide    = 4  // beside the dial
	tallestDial  = 27 // a bigger one shows nothing more
	leastCurve   = 7  // below it a torque curve can not be read
)

// layOut solves where everything goes: coils left, dial in the middle, numbers
// right; below them what happened, the air gap, and the order.
func layOut(width, height int) (p layout) {
	below := 1 + picture.GapHeight + tracesHeight + 1 // with the foot
	p.loose = height >= 30
	if p.loose {
		below += 5 // a title above gap and order each, and blank lines
	}
	p.mainY, p.mainH = 2, height-2-below
	p.coilsW, p.numbersW = 25, 25
	switch {
	case width >= 160:
		p.coilsW, p.numbersW = 52, 52
	case width >= 110:
		p.coilsW, p.numbersW = 34, 34
	}
	p.numbersX = width - p.numbersW
	middle := width - p.coilsW - p.numbersW
	p.messageY = p.mainY + p.mainH
	p.dialH = min(p.mainH, (middle-2*labelWide)/2, tallestDial)
	p.dialY = p.mainY
	if p.loose {
		p.dialH = min(p.dialH, p.mainH-3)
		p.dialY += 2 // under its title
	}
	p.dialX = p.coilsW + (middle-2*p.dialH)/2
	if room := p.messageY - 1 - (p.dialY + p.dialH + 2); p.loose && room >= leastCurve {
		p.curveX, p.curveW = p.coilsW+2, middle-4
		p.curveY, p.curveH = p.dialY+p.dialH+2, min(room-1, 2*leastCurve)
	}
	p.gapY = p.messageY + 1
	if p.loose {
		p.gapY += 2 // a blank line and a title
	}
	p.tracesY = p.gapY + picture.GapHeight
	if p.loose {
		p.tracesY += 2
	}
	return p
}

func (w *walk) draw(e *Explorer, g *picture.Grid) {
	p := layOut(g.W, g.H)
	v := w.see(e)
	w.tell(e, p, v)
	w.drawCoils(e, g, p, v)
	w.drawDial(e, g, p, v)
	w.drawCurve(e, g, p, v)
	w.drawNumbers(e, g, p, v)
	w.drawMessage(e, g, p, v)
	w.drawGap(e, g, p, v)
	switch {
	case w.practised != nil:
		w.drawPractice(e, g, p)
	case w.tour != nil:
		w.drawTour(e, g, p)
	default:
		w.drawOrder(e, g, p, v)
	}
}
