package motor

import "math/big"

// Plan is a way to make the same move again and again in whole rows without
// drift: most times Rows are sent, some times one more, and after Cycle moves
// the sum is exact. At no time is the shaft more than half a row off.
type Plan struct {
	Each  *big.Rat // rows to a move, exact
	Rows  *big.Int // sent each time, at least
	Extra *big.Int // moves of a cycle that get one row more
	Cycle *big.Int // moves until the sum is exact
	Total *big.Int // rows of a whole cycle
}

// PlanFor makes the plan of a move of so many rows, above zero.
func PlanFor(each *big.Rat) Plan {
	p := Plan{Each: each, Rows: new(big.Int), Extra: new(big.Int), Cycle: new(big.Int).Set(each.Denom()), Total: new(big.Int).Set(each.Num())}
	p.Rows.DivMod(each.Num(), each.Denom(), p.Extra)
	return p
}

// Sent gives the rows sent in all after k moves: k·Each to the nearest whole
// row, halves up.
func (p Plan) Sent(k int64) *big.Int {
	twice := new(big.Int).Mul(big.NewInt(2*k), p.Total)
	twice.Add(twice, p.Cycle)
	return twice.Div(twice, new(big.Int).Lsh(p.Cycle, 1))
}

// Move gives the rows to send for move k, from 1.
func (p Plan) Move(k int64) *big.Int {
	return new(big.Int).Sub(p.Sent(k), p.Sent(k-1))
}

// Worst gives the greatest distance, in rows, of the shaft from where it should
// be at the end of a move: never above one half.
func (p Plan) Worst() *big.Rat {
	half := new(big.Int).Rsh(p.Cycle, 1)
	return new(big.Rat).SetFrac(half, p.Cycle)
}
