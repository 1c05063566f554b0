package main

import (
	"strconv"
	"strings"

	"coilwalk/model/quantity"
)

// rowRate is an option that takes a rate of rows. There is but one unit for these: a
// plain number is so many rows a second, as 600/s is.
type rowRate struct{ quantity.Rate }

// Set implements pflag.Value.
func (r *rowRate) Set(text string) error {
	if _, err := strconv.ParseFloat(strings.TrimSpace(text), 64); err == nil {
		text += "/s"
	}
	return r.Rate.Set(text)
}
