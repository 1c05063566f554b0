package hold

import (
	"errors"
	"fmt"
	"time"

	"coilwalk/model/files"
)

// Asks is the question before a motor is armed.
const Asks = "to arm, type on and press enter"

// Armed is said once it is.
const Armed = "armed, nothing is on yet: {walk.next} energises the row it stands at, {walk.stop} switches off"

// ArmedToTest is said where a test of the shaft was asked for: that is asked for
// anew, so that nothing moves by arming.
const ArmedToTest = "armed, nothing is on yet: {ask.perform} does the test, {walk.stop} switches off"

// Already is said where it is armed when that is asked for.
const Already = "it is armed: {walk.next} energises the row it stands at, {walk.stop} switches off"

// handTime is the least time in which a person reads a question and types a word.
const handTime = 300 * time.Millisecond

// Answered takes the answer to the question before arming, which came so long
// after it. Only the word itself, from a hand, arms.
func Answered(text string, after time.Duration) error {
	if text != "on" {
		return fmt.Errorf("%s is not the word on: still not armed", files.Quoted(text))
	}
	if after < handTime {
		return errors.New("that came quicker than a hand types")
	}
	return nil
}
