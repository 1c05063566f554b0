package live

// The messages of Firmata that are needed here (firmata/protocol, protocol.md,
// version 2.5). All bytes of a message but the first have their top bit clear.
const (
	portWrite     = 0x90 // + port; levels of its pins 0 to 6, of pin 7
	analogWrite   = 0xE0 // + pin; only ever received, and not heeded
	reportAnalog  = 0xC0
	reportDigital = 0xD0
	sysexStart    = 0xF0
	pinMode       = 0xF4 // pin, mode
	pinValue      = 0xF5 // pin, level
	sysexEnd      = 0xF7
	version       = 0xF9 // asked without, told with major and minor
	systemReset   = 0xFF

	firmwareName     = 0x79
	capabilityAsk    = 0x6B
	capabilityAnswer = 0x6C
	stateAsk         = 0x6D
	stateAnswer      = 0x6E
	textMessage      = 0x71

	modeOutput = 0x01
	noMode     = 0x7F // ends the modes of a pin
)

// Our own messages, among those that the standard leaves to the user (01 to 0F).
const (
	benchMessage = 0x0E

	benchGuard  = 0x00 // asked without; told: version, ms of silence (two bytes), active high, the pins of outputs 1 to 4
	benchNotice = 0x01 // told: why the firmware switched the outputs off
	benchState  = 0x02 // asked without; told: which outputs are on, whether armed
)

// notices are the reasons of benchNotice.
var notices = map[byte]string{
	1: "it heard nothing from here for too long",
	2: "bytes came that are no message",
	3: "the line lost or spoilt bytes",
	4: "its watchdog restarted it",
	5: "it was asked to reset",
	6: "it was switched on or reset",
}

// message is one whole message from a board.
type message struct {
	command byte // the first byte, or of a sysex its identity
	sysex   bool
	data    []byte // without the framing
}

// longestSysex bounds what a sysex may hold: a board of 128 pins with ten modes
// each tells its abilities in fewer.
const longestSysex = 4096

// reader parts a stream of bytes into messages. Bytes that are part of none are
// counted and left out: it is in step again at the next message that begins.
type reader struct {
	part    []byte // of a message that has begun
	sysex   bool
	want    int // data bytes that the message still wants; without a sysex
	garbage int // bytes that were part of no message
}

// short gives how many data bytes follow a first byte; ok is false where it
// begins no message that a board may send.
func short(first byte) (n int, ok bool) {
	switch {
	case first >= portWrite && first < portWrite+16, first >= analogWrite && first < analogWrite+16, first == version:
		return 2, true
	case first == pinMode || first == pinValue:
		return 2, true
	case first >= reportAnalog && first < reportAnalog+16, first >= reportDigital && first < reportDigital+16:
		return 1, true
	case first == systemReset:
		return 0, true
	}
	return 0, false
}

// take takes a byte, and gives the message that it ends.
func (r *reader) take(b byte) (m message, ok bool) {
	switch {
	case r.sysex && b == sysexEnd:
		part := r.part
		r.drop()
		if len(part) == 0 {
			r.garbage += 2
			return m, false
		}
		return message{command: part[0], sysex: true, data: part[1:]}, true
	case b&0x80 != 0: // a message begins, whatever became of the one before
		r.spoil()
		if b == sysexStart {
			r.sysex = true
			return m, false
		}
		n, known := short(b)
		if !known {
			r.garbage++
			return m, false
		}
		r.part, r.want = []byte{b}, n
	case r.sysex:
		if len(r.part) == longestSysex {
			r.spoil()
			r.garbage++
			return m, false
		}
		r.part = append(r.part, b)
		return m, false
	case r.want > 0:
		r.part = append(r.part, b)
		r.want--
	default:
		r.garbage++
		return m, false
	}
	if r.want > 0 {
		return m, false
	}
	part := r.part
	r.drop()
	return message{command: part[0], data: part[1:]}, true
}

// spoil counts what has begun, and now comes to no end, as garbage.
func (r *reader) spoil() {
	r.garbage += len(r.part)
	if r.sysex { // its first byte is not kept
		r.garbage++
	}
	r.drop()
}

func (r *reader) drop() { r.part, r.sysex, r.want = nil, false, 0 }

// sysex frames a message.
func sysex(data ...byte) []byte {
	return append(append([]byte{sysexStart}, data...), sysexEnd)
}

// spelled reads text that is sent as two bytes of seven bits to a letter.
func spelled(data []byte) string {
	var text []byte
	for i := 0; i+1 < len(data); i += 2 {
		text = append(text, data[i]|data[i+1]<<7)
	}
	return string(text)
}

// abilities says of each pin whether it can be an output.
func abilities(data []byte) (outputs []bool) {
	output := false
	for i := 0; i < len(data); i++ {
		if data[i] == noMode {
			outputs = append(outputs, output)
			output = false
			continue
		}
		output = output || data[i] == modeOutput
		i++ // its resolution
	}
	return outputs
}
