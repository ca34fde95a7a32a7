package optimum

import (
	"cmp"
	"slices"
)

// settled reports whether a column is taken whatever else happens, with all it needs.
// One that must be taken while it is open how it gets what it needs stays to be decided.
func (d *domain) settled(j int) bool {
	if d.lo[j] == 0 {
		return false
	}
	for _, clause := range d.p.Columns[j].Needs {
		if !slices.ContainsFunc(clause, d.settled) {
			return false
		}
	}
	return true
}

func weightless(amounts []int64) bool {
	for _, a := range amounts {
		if a > 0 {
			return false
		}
	}
	return true
}

// tidy sorts clauses, in place, and leaves out those that another one implies.
func tidy(needs [][]int) [][]int {
	for i, clause := range needs {
		slices.Sort(clause)
		needs[i] = slices.Compact(clause)
	}
	if len(needs) < 2 {
		return needs
	}
	slices.SortFunc(needs, func(a, b []int) int { return cmp.Or(cmp.Compare(len(a), len(b)), slices.Compare(a, b)) })
	kept := needs[:0]
	for _, clause := range needs {
		implied := slices.ContainsFunc(kept, func(k []int) bool {
			return !slices.ContainsFunc(k, func(x int) bool { return !slices.Contains(clause, x) })
		})
		if !implied {
			kept = append(kept, clause)
		}
	}
	return kept
}

func keyOf(needs [][]int) string {
	var key []byte
	for _, clause := range needs {
		for _, k := range clause {
			key = append(key, byte(k), byte(k>>8), byte(k>>16))
		}
		key = append(key, 255, 255, 255)
	}
	return string(key)
}
