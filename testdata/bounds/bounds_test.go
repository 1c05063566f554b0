package bounds

import "testing"

var kept []byte

// fake is a test that notes whether it was failed.
type fake struct {
	testing.TB
	failed bool
}

func (f *fake) Helper()               {}
func (f *fake) Name() string          { return "fake" }
func (f *fake) Errorf(string, ...any) { f.failed = true }

func TestMemoryIsCounted(t *testing.T) {
	for _, c := range []struct {
		size   int
		asked  int
		failed bool
	}{
		{10, 1 << 20, false}, {10, 64 << 20, true}, // base 4 MB
		{1 << 20, 64 << 20, false}, {1 << 20, 200 << 20, true}, // and 100 to a byte
	} {
		f := &fake{TB: t}
		Hold(f, c.size, 4<<20, 100, func() {
			for asked := 0; asked < c.asked; asked += 1 << 20 { // never more than one at a time
				kept = make([]byte, 1<<20)
			}
		})
		if f.failed != c.failed {
			t.Errorf("%d bytes for %d: failed %v, want %v", c.asked, c.size, f.failed, c.failed)
		}
	}
}
