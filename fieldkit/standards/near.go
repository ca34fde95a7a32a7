package standards

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

const (
	maxNearest = 5
	maxChanged = 24 // runes; a longer text is not tried with changes
)

// What a difference costs. A look-alike is half of a wrong character; a piece left
// out at the end, as when a stamp is read only in part, costs little a character.
const (
	costLookAlike = 0.5
	costWrong     = 1.0
	costMissing   = 0.9
	costUnread    = 0.25
	costOffered   = 0.8 // by the grammar itself
	worthRead     = 0.6 // off, if the grammar could read all but the end
	dearest       = 2.4 // beyond it is something else

	minBegun = 3 // characters from which a text may be the beginning of another
)

// near is a designation and how far it is from what was typed.
type near struct {
	d    Designation
	cost float64
}

// nearest picks of the refusals the one that tells most, and completes it with the
// valid designations near the text: the refusal that is certain of its kind; else
// that of the kind of the nearest designation; else that which could read most.
func (h *Handbook) nearest(text string, refused []*Misread) *Misread {
	slices.SortStableFunc(refused, func(a, b *Misread) int {
		if a.standing != b.standing {
			return order[a.standing] - order[b.standing]
		}
		return b.At - a.At
	})
	if refused[0].standing == certain {
		refused = refused[:1]
	}
	best := refused[0]
	found := h.close(text, refused)
	if len(found) > 0 {
		i := slices.IndexFunc(refused, func(m *Misread) bool { return m.Kind == found[0].d.Kind() })
		best = refused[i]
	}
	if best.At == 0 && len(found) == 0 && len(refused) > 1 && text != "" {
		best.Kind, best.Why = "", fmt.Sprintf("no designation begins like %q", best.Text)
	}
	if len(best.Nearest) > 0 {
		return best
	}
	seen := map[string]bool{}
	for _, n := range found {
		if name := n.d.String(); !seen[name] && len(best.Nearest) < maxNearest && n.cost <= dearest {
			seen[name] = true
			best.Nearest = append(best.Nearest, n.d)
		}
	}
	return best
}

var order = map[standing]int{certain: 0, usual: 1, foreign: 2}

// close gives designations near a text, the nearest first.
func (h *Handbook) close(text string, refused []*Misread) (found []near) {
	if len([]rune(text)) > maxChanged {
		return nil
	}
	read := map[Kind]float64{} // how much of the text each kind could read
	for _, m := range refused {
		if _, done := read[m.Kind]; done || m.Kind == KindBolt && boltAsThread(m, refused) {
			continue
		}
		read[m.Kind] = float64(m.At) / float64(len([]rune(text))+1)
		for _, d := range m.Nearest {
			found = append(found, near{d, costOffered})
		}
		if m.standing != foreign {
			found = append(found, h.changed(m)...)
		}
	}
	found = append(found, h.alike(text, read)...)
	for i := range found {
		found[i].cost -= worthRead * read[found[i].d.Kind()]
	}
	slices.SortStableFunc(found, func(a, b near) int {
		if a.cost != b.cost {
			return cmp.Compare(a.cost, b.cost)
		}
		return strings.Compare(a.d.String(), b.d.String())
	})
	return found
}

// boltAsThread reports whether the bolt was refused for its thread: then the thread
// is what was meant.
func boltAsThread(bolt *Misread, refused []*Misread) bool {
	return slices.ContainsFunc(refused, func(m *Misread) bool {
		return (m.Kind == KindInchThread || m.Kind == KindMetricThread) && m.At >= bolt.At
	})
}

// alike gives the listed designations of some kinds that a text may be a slip of.
func (h *Handbook) alike(text string, kinds map[Kind]float64) (found []near) {
	typed := fold(text)
	if typed == "" {
		return nil
	}
	limit := min(dearest, 0.4*float64(len(typed)))
	for _, g := range h.grammars {
		if _, asked := kinds[g.kind]; !asked || g.listed == nil {
			continue
		}
		var list []Designation
		for _, slip := range g.names().slips(typed, limit) {
			if list == nil {
				list = g.listed()
			}
			found = append(found, near{list[slip.at], slip.cost})
		}
	}
	return found
}

// changed tries small changes of a text that a grammar refused: without what could
// not be read, with a look-alike in each place, without a character, with another
// character where it stopped.
func (h *Handbook) changed(m *Misread) (found []near) {
	runes := []rune(m.Text)
	grammars := slices.DeleteFunc(slices.Clone(h.grammars), func(g grammar) bool { return g.kind != m.Kind })
	try := func(changed []rune, cost float64) {
		for _, g := range grammars {
			if d, again := g.read(string(changed), true); again == nil {
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
	if m.At == 0 { // nothing could be read: another character will not help
		return found
	}
	for _, c := range "-/x 0123456789RCS" {
		for i := max(m.At-1, 0); i < len(runes); i++ {
			if r := plain(runes[i]); r != plain(c) && !LookAlike(r, plain(c)) { // tried above
				try(replaced(runes, i, c), costWrong)
			}
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
