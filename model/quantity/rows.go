package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"coilwalk/model/files"
)

// Rows reads a rate of rows in rows a second, above none. There is but one unit for
// these, so that a plain number is one too: 600, 600/s, 600 rows/s.
func Rows(text string) (perSecond float64, err error) {
	bare := strings.TrimSpace(text)
	if number, ok := strings.CutSuffix(bare, "rows/s"); ok {
		bare = strings.TrimSpace(number)
	}
	perSecond, err = strconv.ParseFloat(bare, 64)
	if err != nil {
		var r Rate
		err = r.Set(bare)
		perSecond = r.Base()
	}
	if err != nil || !(perSecond > 0) || math.IsInf(perSecond, 0) {
		return 0, fmt.Errorf("%s is no rate; rows a second above 0 are wanted, as 600 or 600/s", files.Quoted(text))
	}
	return perSecond, nil
}
