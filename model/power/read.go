package power

import (
	"fmt"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/model/motor"
)

// ParsePart reads a part of a whole: "30 %" or "0.3".
func ParsePart(text string) (float64, error) {
	text = strings.TrimSpace(text)
	number, isPercent := strings.CutSuffix(text, "%")
	part, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if isPercent {
		part /= 100
	}
	if err != nil || !(part >= 0 && part <= 1) {
		return 0, &files.Complaint{What: fmt.Sprintf("%s is no part of a whole", files.Quoted(text)), Right: "from 0 to 100 % is wanted, as 30% or 0.3"}
	}
	return part, nil
}

// ConnectionNamed finds a connection of a motor: unipolar, half, series, parallel,
// parted (of a 5-lead motor), or bipolar where there is but one such.
func ConnectionNamed(m motor.Motor, word string) (motor.Connection, error) {
	var can []string
	for _, c := range m.Connections() {
		if c.Word == word {
			return c, nil
		}
		can = append(can, c.Word)
	}
	return motor.Connection{}, &files.Complaint{What: fmt.Sprintf("%s can not be connected as %s", m.Title, files.Quoted(word)), Right: "it can be " + strings.Join(can, ", ")}
}

// Connect takes another connection; a current that was its rating becomes the new
// one's.
func (q *Question) Connect(c motor.Connection) {
	if q.Current == q.Connection.Current.Base() {
		q.Current = c.Current.Base()
	}
	q.Connection = c
}
