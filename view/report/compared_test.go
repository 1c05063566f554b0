package report

import "testing"

// A motor that its load carries away follows no rate: it does not follow to 0.
func TestModeThatFollowsNone(t *testing.T) {
	if got, want := (RatesMode{}).Words(), "starts at none swept from below; follows none"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
