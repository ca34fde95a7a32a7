package standards

import (
	"cmp"
	"slices"
)

// names are the folded names of listed designations, in alphabetical order: what one
// shares with the next is compared once.
type names []name

type name struct {
	folded string
	at     int // place in the list
}

// slip is a listed name a typed text may stand for.
type slip struct {
	at   int     // place in the list
	cost float64 // how far it is from what was typed
}

func namesOf(list []Designation) names {
	all := make(names, len(list))
	for i, d := range list {
		all[i] = name{fold(d.String()), i}
	}
	return sortedNames(all)
}

func sortedNames(all names) names {
	return slices.SortedFunc(slices.Values(all), func(a, b name) int {
		return cmp.Or(cmp.Compare(a.folded, b.folded), a.at-b.at)
	})
}

// slips gives the names no further from a typed text than the limit, in the order of
// the list. The distance is the least sum of edits, with neighbours in the wrong order
// as one; what a name goes on with behind a typed text of some length costs little.
// [Needleman and Wunsch 1970, with the exchange of Damerau 1964 between neighbours
// that nothing else touches.]
func (all names) slips(typed string, limit float64) (found []slip) {
	tail := costMissing
	if len(typed) >= minBegun {
		tail = costUnread
	}
	// rows[j][i] is the distance of the first i typed characters from the first j of
	// the name; ended[j] the least of the whole text with a tail of j characters at most.
	rows := [][]float64{make([]float64, len(typed)+1)}
	for i := range rows[0] {
		rows[0][i] = costMissing * float64(i)
	}
	ended := []float64{rows[0][len(typed)]}
	least := []float64{0}
	before, known := "", 0 // the name before, and how many characters of it have rows
	for _, n := range all {
		same := 0
		for same < min(known, len(n.folded)) && n.folded[same] == before[same] {
			same++
		}
		before, known = n.folded, same
		for j := same; j < len(n.folded) && !hopeless(least, ended, j, len(n.folded), tail, limit); j++ {
			if len(rows) == j+1 {
				rows = append(rows, make([]float64, len(typed)+1))
				ended, least = append(ended, 0), append(least, 0)
			}
			least[j+1] = fill(rows, typed, n.folded, j)
			ended[j+1] = min(ended[j]+tail, rows[j+1][len(typed)])
			known = j + 1
		}
		if known == len(n.folded) && ended[known] <= limit {
			found = append(found, slip{n.at, ended[known]})
		}
	}
	slices.SortFunc(found, func(a, b slip) int { return a.at - b.at })
	return found
}

// fill reckons the row of a name's character j from those before it, and gives the
// least of it.
func fill(rows [][]float64, typed, folded string, j int) float64 {
	last, row := rows[j], rows[j+1]
	row[0] = last[0] + costMissing
	least := row[0]
	for i := range len(typed) {
		cost := last[i]
		if typed[i] != folded[j] {
			if LookAlike(rune(typed[i]), rune(folded[j])) {
				cost += costLookAlike
			} else {
				cost += costWrong
			}
			if i > 0 && j > 0 && typed[i] == folded[j-1] && typed[i-1] == folded[j] {
				cost = min(cost, rows[j-1][i-1]+costMissing)
			}
		}
		row[i+1] = min(cost, last[i+1]+costMissing, row[i]+costMissing)
		least = min(least, row[i+1])
	}
	return least
}

// hopeless reports that whatever follows the first j characters of a name leaves it
// beyond the limit.
func hopeless(least, ended []float64, j, length int, tail, limit float64) bool {
	return least[j] > limit && (j == 0 || least[j-1]+costMissing > limit) && ended[j]+tail*float64(length-j) > limit
}
