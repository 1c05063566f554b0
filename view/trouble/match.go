package trouble

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"coilwalk/model/files"
)

// Match gives the troubles that free words may mean, the likeliest first. The
// error says that none does.
func Match(text string) ([]Trouble, error) {
	all := All()
	said := spelt(text)
	for _, t := range all {
		if said == spelt(t.Word) || said == spelt(t.Says) {
			return []Trouble{t}, nil
		}
	}
	scores := weigh(all, said)
	most := slices.Max(scores)
	if most == 0 {
		if scores = weigh(all, mended(all, said)); slices.Max(scores) == 0 {
			return nil, fmt.Errorf("no trouble here is like %s; coilwalk trouble lists them", files.Quoted(text))
		}
		most = slices.Max(scores)
	}
	var found []int
	for i, s := range scores {
		if s >= most/2 {
			found = append(found, i)
		}
	}
	sort.SliceStable(found, func(i, k int) bool { return scores[found[i]] > scores[found[k]] })
	matched := make([]Trouble, len(found))
	for i, at := range found {
		matched[i] = all[at]
	}
	return matched, nil
}

// spelt writes text as words in lower case with one blank around each.
func spelt(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' })
	return " " + strings.Join(words, " ") + " "
}

// weigh counts for each trouble the words of it that were said. One that several
// troubles go by tells less, one of two words more, and its own title decides between two.
func weigh(all []Trouble, said string) []float64 {
	scores := make([]float64, len(all))
	words, of := known(all)
	for _, word := range words {
		if !strings.Contains(said, " "+word) { // the beginning of a word will do
			continue
		}
		for _, i := range of[word] {
			scores[i] += float64(1+strings.Count(word, " ")) / float64(len(of[word]))
			if len(of[word]) > 1 && strings.Contains(spelt(all[i].Says), " "+word) {
				scores[i] += 0.05
			}
		}
	}
	return scores
}

// known gives every word in its order, and the troubles that go by it.
func known(all []Trouble) (words []string, of map[string][]int) {
	of = map[string][]int{}
	for i, t := range all {
		for _, w := range append([]string{t.Word}, t.Words...) {
			w = strings.TrimSpace(spelt(w))
			if len(of[w]) == 0 {
				words = append(words, w)
			}
			if !slices.Contains(of[w], i) {
				of[w] = append(of[w], i)
			}
		}
	}
	return words, of
}

// mended puts the nearest known word in the place of each that may be mistyped.
func mended(all []Trouble, said string) string {
	words, _ := known(all)
	var out []string
	for _, w := range strings.Fields(said) {
		if near := files.Nearest(w, words); near != "" && len(w) > 3 {
			w = near
		}
		out = append(out, w)
	}
	return spelt(strings.Join(out, " "))
}
