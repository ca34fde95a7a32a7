package standards

import (
	"slices"
	"strings"
)

const (
	maxNearest = 5
	// progressed is how many grammars are tried with small changes of the text: those
	// that could read most of it.
	progressed = 3
	maxChanged = 24 // runes; a longer text is not tried with changes
)

// What a difference costs. A look-alike is half of a wrong character; a piece left
// out at the end, as when a stamp is read only in part, costs little a character.
const (
	costLookAlike = 0.5
	costWrong     = 1.0
	costMissing   = 0.9
	costUnread    = 0.25
	dearest       = 2.4 // beyond it is something else

	minBegun = 3 // characters from which a text may be the beginning of another
)

// near is a designation and how far it is from what was typed.
type near struct {
	d    Designation
	cost float64
}

// nearest completes the refusal of the grammar that could read most of a text with
// the valid designations near it.
func (h *Handbook) nearest(text string, refused []*Misread) *Misread {
	slices.SortStableFunc(refused, func(a, b *Misread) int {
		if a.foreign != b.foreign {
			if a.foreign {
				return 1
			}
			return -1
		}
		return b.At - a.At
	})
	best := refused[0]
	if len(best.Nearest) > 0 || len([]rune(text)) > maxChanged {
		return best
	}
	var found []near
	kinds := map[Kind]bool{}
	for i, m := range refused {
		kinds[m.Kind] = true
		if i < progressed {
			found = append(found, h.changed(m)...)
		}
	}
	found = append(found, h.alike(text, kinds)...)
	slices.SortStableFunc(found, func(a, b near) int {
		switch {
		case a.cost < b.cost:
			return -1
		case a.cost > b.cost:
			return 1
		}
		return 0
	})
	seen := map[string]bool{}
	for _, n := range found {
		if name := n.d.String(); !seen[name] && len(best.Nearest) < maxNearest && n.cost <= dearest {
			seen[name] = true
			best.Nearest = append(best.Nearest, n.d)
		}
	}
	return best
}

// alike gives the listed designations of some kinds that a text may be a slip of.
func (h *Handbook) alike(text string, kinds map[Kind]bool) (found []near) {
	typed := fold(text)
	if typed == "" {
		return nil
	}
	for _, g := range h.grammars {
		if !kinds[g.kind] || g.listed == nil {
			continue
		}
		for _, d := range g.listed() {
			limit := min(dearest, 0.4*float64(len(typed)))
			if cost := differs(typed, fold(d.String()), limit); cost <= limit {
				found = append(found, near{d, cost})
			}
		}
	}
	return found
}

// changed tries small changes of a text that a grammar refused: without what could
// not be read, with a look-alike in each place, without a character, with another
// character where it stopped.
func (h *Handbook) changed(m *Misread) (found []near) {
	runes := []rune(m.Text)
	try := func(changed []rune, cost float64) {
		for _, g := range h.grammars {
			if g.kind != m.Kind || strings.TrimSpace(string(changed)) == "" {
				continue
			}
			if d, again := g.read(string(changed)); again == nil {
				found = append(found, near{d, cost})
			}
		}
	}
	if m.At > 0 && m.At < len(runes) {
		try(runes[:m.At], costUnread*float64(len(runes)-m.At))
	}
	for i, r := range runes {
		try(slices.Delete(slices.Clone(runes), i, i+1), costMissing)
		for _, c := range "0123456789ABCDEFGHJKLMNPRSTUVWXYZ" {
			if LookAlike(c, plain(r)) {
				try(replaced(runes, i, c), costLookAlike)
			}
		}
	}
	for _, c := range "-/x 0123456789RCS" {
		for i := max(m.At-1, 0); i < len(runes); i++ {
			try(replaced(runes, i, c), costWrong)
		}
		if m.At <= len(runes) {
			try(slices.Insert(slices.Clone(runes), m.At, c), costMissing)
		}
	}
	return found
}

func replaced(runes []rune, i int, c rune) []rune {
	changed := slices.Clone(runes)
	changed[i] = c
	return changed
}

// fold gives capitals and figures, with a point or slash that stands between figures.
func fold(text string) string {
	runes := []rune(text)
	var b strings.Builder
	for i, r := range runes {
		r = plain(r)
		digit := func(j int) bool { return j >= 0 && j < len(runes) && runes[j] >= '0' && runes[j] <= '9' }
		switch {
		case r >= '0' && r <= '9' || r >= 'A' && r <= 'Z':
			b.WriteRune(r)
		case (r == '.' || r == ',' || r == '/') && digit(i-1) && digit(i+1):
			b.WriteRune(r)
		}
	}
	return b.String()
}

// differs gives how far a typed text is from a listed one: edits, with neighbours in
// the wrong order as one; what the listed one goes on with behind a typed text of
// some length costs little. Beyond the limit any number above it is given.
func differs(typed, listed string, limit float64) float64 {
	a, b := []byte(typed), []byte(listed)
	tail := costMissing
	if len(a) >= minBegun {
		tail = costUnread
	}
	if gap := len(a) - len(b); float64(gap)*costMissing > limit || float64(-gap)*tail > limit {
		return limit + 1
	}
	var before, row, next []float64
	row = make([]float64, len(b)+1)
	for j := range row {
		row[j] = costMissing * float64(j)
	}
	for i := range a {
		next = append(make([]float64, 0, len(b)+1), costMissing*float64(i+1))
		least := next[0]
		for j := range b {
			cost := row[j]
			if a[i] != b[j] {
				cost += costWrong
				if LookAlike(rune(a[i]), rune(b[j])) {
					cost += costLookAlike - costWrong
				}
			}
			cost = min(cost, row[j+1]+costMissing, next[j]+costMissing)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] && a[i] != a[i-1] {
				cost = min(cost, before[j-1]+costMissing)
			}
			next = append(next, cost)
			least = min(least, cost)
		}
		if least > limit {
			return least
		}
		before, row = row, next
	}
	cost := row[len(b)]
	for j := range b {
		cost = min(cost, row[j]+tail*float64(len(b)-j))
	}
	return cost
}
