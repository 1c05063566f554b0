package wiring

import (
	"math"
	"slices"

	"coilwalk/model/driver"
	"coilwalk/model/rotor"
	"coilwalk/sequence"
)

// A supply that sags is taken to give what one phase takes at its rated current,
// and no more, as a USB port or a worn battery may: with one phase on nothing is
// missing, with two on its voltage falls until both take half. (Common practice,
// no source.)

// sags says whether the supply does.
func sags(faults []Fault) bool {
	return slices.ContainsFunc(faults, func(f Fault) bool { return f.Kind == SupplySags })
}

// sagged gives the row whose field at rest is that of a row on such a supply: what
// all coils take together is at most one phase's current.
func sagged(at sequence.Row, drive sequence.Drive) sequence.Row {
	taken := at[0] + at[1] + at[2] + at[3]
	if drive == sequence.Bipolar {
		field := at.Field()
		taken = math.Abs(field.A) + math.Abs(field.B)
	}
	if taken > 1 {
		for e := range at {
			at[e] /= taken
		}
	}
	return at
}

// Sagging gives how the coils of a plant are fed under a row by such a supply: at
// the voltage at which they take, at rest, one phase's current together. An ideal
// source has no voltage to fall; its currents do.
func Sagging(p *rotor.Plant, row sequence.Row) [4]driver.Feed {
	if p.Stage.Instant() {
		return p.Stage.Feeds(sagged(row, p.Drive), p.Drive, p.Current)
	}
	feeds := p.Stage.Feeds(row, p.Drive, p.Current)
	takes := func(volts float64) (ampere float64) {
		for _, f := range feeds {
			i := math.Abs(f.Settled(volts, p.Resistance))
			if f.Hold != 0 { // a chopper takes no more than the power that it needs
				i *= math.Min(1, i*(p.Resistance+f.Above.Ohms())/math.Max(volts, 1e-9))
			}
			ampere += i
		}
		return ampere
	}
	supply := driver.Supply{Volts: p.Supply, Limit: p.Current}
	part := supply.Meets(takes, true) / p.Supply
	for j := range feeds {
		feeds[j].Above.Rail *= part
		feeds[j].Below.Rail *= part
	}
	return feeds
}
