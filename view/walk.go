package view

import (
	"coilwalk/view/action"
	"coilwalk/view/picture"
)

// walk is the screen on which one row after another is energised.
type walk struct {
	hints  []hint
	live   bool // bound to a real motor
	told   told
	dial   picture.Dial
	gap    picture.Gap
	curve  picture.Curve
	traces picture.Traces
}

func (w *walk) name() string { return "Walk" }

func (w *walk) key(e *Explorer, key string) bool {
	if key == "z" && e.live == nil {
		e.slower()
		return true
	}
	if key == "a" && e.live != nil {
		e.live.arms(e, nil)
		return true
	}
	a, ok := action.ForKey(e.actions, key)
	if !ok {
		return false
	}
	if says, ok := liveSays[a.Word]; a.Ask != "" && !(e.live != nil && ok && says == "") {
		e.askFor(a)
		return true
	}
	e.act(a, nil)
	return true
}

// footWords are the short words of the actions that the foot shows.
var footWords = map[string]string{"next": "next", "back": "back", "rewind": "rewind", "run": "run", "stop": "stop", "mode": "mode", "swap": "swap", "reverse": "reverse", "go": "go to"}

// liveSays is what actions do to a real motor where that is something else; ""
// where they do nothing.
var liveSays = map[string]string{"next": "energise the next row, for real", "back": "energise the row before, for real; the motor turns back",
	"run": "run, or stop and hold the last row", "stop": "all coils off, at once, and disarmed; always", "swap": "say that the leads on two outputs were swapped (coils off)",
	"fault": "put a fault into the picture, to see what it would look like", "rewind": "", "go": "", "restart": "count from 0 again (coils off)"}

func (w *walk) keys() []hint {
	if w.hints == nil {
		if w.live {
			w.hints = append(w.hints, hint{"a", "arm", "arm the real motor; it drops out after a minute without a key"})
		}
		for _, a := range action.All() {
			if w.live {
				if a.Word == "stop" {
					w.hints = append(w.hints, hint{a.Shown, "off", liveSays[a.Word]})
					continue
				}
				if says, ok := liveSays[a.Word]; ok {
					a.Says = says
				}
				if a.Says == "" {
					continue
				}
			}
			w.hints = append(w.hints, hint{a.Shown, footWords[a.Word], a.Says})
		}
		if w.live {
			return w.hints
		}
		w.hints = append(w.hints, hint{"z", "", "play rows and runs as the rotor takes them, 50, 200 … times slower"})
	}
	return w.hints
}

// places are where the parts of the screen stand.
type places struct {
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

// layout solves where everything goes: coils left, dial in the middle, numbers
// right; below them what happened, the air gap, and the order.
func layout(width, height int) (p places) {
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
	p := layout(g.W, g.H)
	v := w.see(e)
	w.tell(e, p, v)
	w.drawCoils(e, g, p, v)
	w.drawDial(e, g, p, v)
	w.drawCurve(e, g, p, v)
	w.drawNumbers(e, g, p, v)
	w.drawMessage(e, g, p, v)
	w.drawGap(e, g, p, v)
	w.drawOrder(e, g, p, v)
}
