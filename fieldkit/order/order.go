package order

import (
	"cmp"
	"slices"
)

// By sorts a list in place. Entries that compare as equal stay in the order they
// have. compare is negative when a comes first.
func By[T any](list []T, compare func(a, b T) int) {
	places := make([]int, len(list))
	for i := range places {
		places[i] = i
	}
	slices.SortFunc(places, func(i, j int) int { return cmp.Or(compare(list[i], list[j]), i-j) })
	sorted := make([]T, len(list))
	for to, from := range places {
		sorted[to] = list[from]
	}
	copy(list, sorted)
}
