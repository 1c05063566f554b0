package plain

import (
	"strings"

	"coilwalk/view/action"
)

// Reach says which word does what a key of the explorer does, by the place and the
// word of the key. "" stands at what is of the picture alone: cursors, scrolling,
// colours.
func Reach() map[string]string {
	reach := map[string]string{
		"anywhere.help": "help", "anywhere.quit": "quit", "anywhere.explain": "explain",
		"anywhere.next-screen": "", "anywhere.screen-before": "", "anywhere.theme": "",
		"anywhere.walk": "where", "anywhere.leads": "leads", "anywhere.faults": "faults", "anywhere.shaft": "shaft", "anywhere.rates": "rates",
		"anywhere.power": "power", "anywhere.take-along": "take", "anywhere.trouble": "trouble", "anywhere.table": "check", "anywhere.recording": "recording",
		"live.arm":         "arm",
		"walk.slow-motion": "slowly",
		"walk.tour":        "tour", "walk.practice": "practice", "tour.leave": "tour", "tour.next-note": "tour",
		"practice.next-question": "practice", "practice.row": "", "practice.leave": "practice",
		"leads.left": "", "leads.right": "", "leads.up": "", "leads.down": "",
		"leads.reading": "reading", "leads.open": "reading", "leads.clear": "reading", "leads.names": "names", "leads.tells-most": "leads", "leads.ask-shaft": "ask", "leads.save": "save", "leads.motor": "newmotor",
		"ask.perform": "perform", "ask.readings": "readings", "ask.own-test": "answer", "ask.up": "answers", "ask.down": "answers", "ask.take-back": "takeback", "ask.save": "save", "ask.motor": "newmotor", "ask.geared": "ask",
		"faults.up": "list", "faults.down": "list", "faults.trials": "trials", "faults.list": "list", "faults.do": "does", "faults.clear": "forget", "faults.mine": "mine", "faults.take-out": "rewire",
		"lines.up": "lines", "lines.down": "lines", "lines.edit": "rates", "lines.clear": "rates",
		"shaft.save":   "save",
		"rates.cancel": "", "rates.back": "rates", "rates.next": "rates", "power.back": "power", "power.next": "power",
		"take-along.back": "take", "take-along.next": "take", "take-along.save": "save", "take-along.copy": "preview",
		"take-along.page-up": "preview", "take-along.page-down": "more", "take-along.top": "preview", "take-along.bottom": "more",
		"trouble.up": "trouble", "trouble.down": "trouble", "trouble.into": "trouble", "trouble.back": "trouble", "trouble.say": "trouble",
		"table.up": "check", "table.down": "check", "table.page-up": "check", "table.page-down": "check", "table.top": "check", "table.next-table": "another", "table.bits": "bits",
		"recording.next": "later", "recording.back": "earlier", "recording.next-fault": "finding", "recording.fault-before": "finding",
		"recording.read-on": "", "recording.read-back": "",
		"recording.zoom-in": "", "recording.zoom-out": "", "recording.all": "",
		"recording.up": "findings", "recording.down": "findings", "recording.go": "time", "recording.next-edge": "edge", "recording.edge-before": "edge",
		"recording.page-back": "earlier", "recording.page-on": "later", "recording.first": "row", "recording.last": "row",
		"recording.end-reading": "", "recording.mark-a": "mark", "recording.mark-b": "mark",
	}
	for _, a := range action.All() {
		reach["walk."+a.Word] = a.Word
	}
	return reach
}

// doing puts words of the line mode where a sentence names what a person can do by
// its place and word in braces, as sentences that the explorer shares do.
var doing = func() *strings.Replacer {
	pairs := []string{ // a key that is pressed is a word that is said
		"{live.arm} arms again", "say arm to arm again", ": {live.arm} arms", "; say arm first",
		"{walk.stop} switches off", "off switches off", "{walk.stop} first", "say off first", "press it again", "say it again",
	}
	for key, word := range Reach() {
		if word != "" {
			pairs = append(pairs, "{"+key+"}", word)
		}
	}
	return strings.NewReplacer(pairs...)
}()

func worded(text string) string { return doing.Replace(text) }

// ReachCommand says which word does what a command does; "" stands at what goes
// with the keys of a screen.
func ReachCommand() map[string]string {
	return map[string]string{
		"check": "check", "explain": "explain", "faults": "faults", "keys": "", "leads": "leads", "live": "arm", "motors": "motors", "order": "order",
		"power": "power", "ramp": "ramp", "rates": "rates", "read": "open", "shaft": "shaft", "trouble": "trouble", "write": "take",
	}
}
