package recording_test

import (
	"fmt"
	"strings"
	"testing"

	"coilwalk/model/recording"
)

// What stands in memory behind the end of a file is no part of it. Of a short file
// that is a piece of its head, so the head here holds what would read on well
// wherever the file is cut off: the rest of an identifier, a digit, a line's end.
func TestNothingBehindTheEndIsRead(t *testing.T) {
	const declared = "$timescale 1us $end $var wire 1 ! A $end $var wire 1 ab B $end $var wire 1 abc C $end $var wire 2 v D $end $enddefinitions $end\n"
	for end, filled := range map[string]string{"\n": "! ab abc v 7 \n", " ": "!\nb\nbc\n"} {
		body := strings.Join([]string{"#0", "0!", "1ab", "1abc", "b1 v", "#5", "1!", "0ab", "0abc", "b01 v", "#12", "1ab", "0!"}, end)
		for shift := range len(filled) {
			head := "$comment " + strings.Repeat(filled, 12)[shift:] + " $end " + declared
			for cut := range len(body) {
				sameAsTwin(t, fmt.Sprintf("%q cut off behind %q", filled[shift:], body[:cut+1]), []byte(head+body[:cut+1]))
			}
		}
	}
}

// The same of a head that is longer than what is read at once, and that ends
// without a line's end: behind it in memory stand the words of its comment.
func TestNothingBehindTheHeadIsRead(t *testing.T) {
	for shift := range 5 {
		head := "$comment " + strings.Repeat("word\n", 14_000)[shift:] + "$end $var wire 1 ! A $end\n$enddefinitions $end"
		_, complaint := soon(t, []byte(head), recording.Options{})
		if complaint == nil || !strings.Contains(complaint.Error(), "no time stands in the whole file") {
			t.Errorf("shifted by %d: %v", shift, complaint)
		}
	}
}
