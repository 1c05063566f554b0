package wiring

// network is resistors between nodes.
type network struct {
	nodes int
	links []link
	open  int // one more than the node whose lead is broken off; 0 for none
}

type link struct {
	a, b int
	r    float64
}

func (n *network) join(a, b int, r float64) {
	n.links = append(n.links, link{a, b, max(r, 1e-4)}) // a joint is no resistance to speak of
}

// resistances gives the resistance between any two of the first nodes, apart
// where they are not connected: with X the inverse of the node equations of a
// part, one node of it grounded, it is Xaa + Xbb − 2·Xab.
func (n *network) resistances(first int) [][]float64 {
	group := n.groups()
	solved := map[int][][]float64{}
	out := make([][]float64, first)
	for a := range out {
		out[a] = make([]float64, first)
		for b := range out[a] {
			out[a][b] = apart
			if a == b || group[a] != group[b] || a+1 == n.open || b+1 == n.open {
				continue
			}
			x, done := solved[group[a]]
			if !done {
				x = n.solve(group, group[a])
				solved[group[a]] = x
			}
			out[a][b] = x[a][a] + x[b][b] - 2*x[a][b]
		}
	}
	return out
}

// groups numbers the connected parts.
func (n *network) groups() []int {
	group := make([]int, n.nodes)
	for i := range group {
		group[i] = i
	}
	for range n.nodes {
		for _, l := range n.links {
			g := min(group[l.a], group[l.b])
			group[l.a], group[l.b] = g, g
		}
	}
	return group
}

// solve inverts the node equations of the part that ground is in.
func (n *network) solve(group []int, ground int) [][]float64 {
	m := make([][]float64, n.nodes)
	inverse := make([][]float64, n.nodes)
	for i := range m {
		m[i], inverse[i] = make([]float64, n.nodes), make([]float64, n.nodes)
		inverse[i][i] = 1
		if i == ground || group[i] != group[ground] {
			m[i][i] = 1 // out of the way
		}
	}
	add := func(i, k int, g float64) {
		if i != ground && k != ground && group[i] == group[ground] {
			m[i][k] += g
		}
	}
	for _, l := range n.links {
		g := 1 / l.r
		add(l.a, l.a, g)
		add(l.b, l.b, g)
		add(l.a, l.b, -g)
		add(l.b, l.a, -g)
	}
	inverse[ground][ground] = 0 // the ground stands at nothing
	for c := range m {          // symmetric and positive: no pivot is ever nothing
		p := m[c][c]
		for k := range m {
			m[c][k] /= p
			inverse[c][k] /= p
		}
		for r := range m {
			if f := m[r][c]; r != c && f != 0 {
				for k := range m {
					m[r][k] -= f * m[c][k]
					inverse[r][k] -= f * inverse[c][k]
				}
			}
		}
	}
	return inverse
}
