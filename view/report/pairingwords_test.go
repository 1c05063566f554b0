package report

import (
	"strings"
	"testing"

	"coilwalk/model/table"
)

// The wiring that a cure is for is not told to be as wrong as the others.
func TestTheWiringOfACure(t *testing.T) {
	source, err := table.Read("a.c", []byte("int s[] = {8, 12, 4, 6, 2, 11, 1, 9};\n"), table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	text := VerdictText("a.c", table.Judge(&source.Tables[0], table.Question{}))
	for _, want := range []string{"1-3 and 2-4: sound with cure 1\n", "1-2 and 3-4: not sound\n", "1001 (for the file: below)\n", "in place of line 1 of the file:"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said:\n%s", want, text)
		}
	}
}
