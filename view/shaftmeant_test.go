package view

import "testing"

// Each test says what it means by a lead: of the motor on the bench its outputs, of
// leads that were measured the lead itself.
func TestShaftAsksSayWhatALeadMeans(t *testing.T) {
	e, _ := explorer(t, "hybrid-4", Settings{})
	sized(e, 120, 36)
	press(e, "L", "a")
	shows(t, e, "Here by BK RD GN BU outputs 1 to 4 are meant, whatever hangs there.")
	e, _ = withReadings(t, sixReadings, Settings{}, Opened{})
	sized(e, 120, 36)
	press(e, "a")
	shows(t, e, "Here the lead itself is meant, whatever output it is on.")
}
