package interchange

import "trailfieldkit/fieldkit"

// gradeOrder lists the grades that let a part stand in, the best first.
var gradeOrder = []fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay}

// Rank orders grades, 0 for drop-in and higher for worse; a grade that is not known
// counts as does not fit.
func Rank(g fieldkit.Grade) int {
	for i, known := range gradeOrder {
		if g == known {
			return i
		}
	}
	return len(gradeOrder)
}

// Compose gives the grade of two steps one after the other: the worse of the two.
// A chain with a one-way step holds one way only, whatever else it needs.
func Compose(a, b fieldkit.Grade) fieldkit.Grade {
	worse := max(Rank(a), Rank(b))
	if worse == len(gradeOrder) {
		return fieldkit.DoesNotFit
	}
	return gradeOrder[worse]
}

// evidenceOf reads a link's evidence; one that does not say how it is known is
// hearsay.
func evidenceOf(e fieldkit.Evidence) fieldkit.Evidence {
	if e.Strength() == 0 {
		return fieldkit.Hearsay
	}
	return e
}

// addChanges appends the changes not yet listed, in order.
func addChanges(list, more []string) []string {
	for _, change := range more {
		known := false
		for _, have := range list {
			known = known || have == change
		}
		if !known {
			list = append(list, change)
		}
	}
	return list
}
