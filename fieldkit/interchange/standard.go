package interchange

import (
	"slices"
	"strings"
	"unicode"

	"trailfieldkit/fieldkit"
)

// tie is a standard designation and the parts of one kind that bear it.
type tie struct {
	name    string // "ISO 15 6207-2RS C3"
	members []member
}

type member struct {
	part     int
	strength int // of the proof that the part bears the designation
}

func (t *tie) strengthOf(part int) int {
	for _, m := range t.members {
		if m.part == part {
			return m.strength
		}
	}
	return 0
}

// tieByStandard ties the parts of one kind that bear one designation. Such a tie is
// as good as the published standard, unless a part is only said, seen or listed to
// bear the designation.
func (g *Graph) tieByStandard(parts []fieldkit.Part) {
	type designation struct{ kind, folded string }
	ties := map[designation]*tie{}
	for _, p := range parts {
		for _, n := range p.Numbers {
			folded := FoldDesignation(n.Value)
			if n.Issuer != fieldkit.StandardNumber || folded == "" {
				continue
			}
			key := designation{p.Kind, folded}
			t := ties[key]
			if t == nil {
				t = &tie{}
				ties[key] = t
			}
			if name := strings.TrimSpace(n.From + " " + n.Value); t.name == "" || name < t.name {
				t.name = name
			}
			t.add(member{g.index[p.ID], bearing(n).Strength()})
		}
	}
	for _, t := range ties {
		if len(t.members) < 2 {
			continue
		}
		for _, m := range t.members {
			g.tied[m.part] = append(g.tied[m.part], t)
		}
	}
	for _, of := range g.tied {
		slices.SortFunc(of, func(a, b *tie) int { return strings.Compare(a.name, b.name) })
	}
}

func (t *tie) add(m member) {
	for i := range t.members {
		if t.members[i].part == m.part {
			t.members[i].strength = max(t.members[i].strength, m.strength)
			return
		}
	}
	t.members = append(t.members, m)
}

// bearing says how well it is known that a part bears the designation.
func bearing(n fieldkit.Number) fieldkit.Evidence {
	if n.Proof == nil || n.Proof.How.Strength() >= fieldkit.NumberRead.Strength() {
		return fieldkit.PublishedStandard
	}
	return evidenceOf(n.Proof.How)
}

// FoldDesignation folds a standard designation to what decides: capitals without
// spaces and dashes. A point or slash between two digits stays, since M14×1.5 is not
// M14×15 and 1/2 is not 12.
func FoldDesignation(value string) string {
	runes := []rune(strings.ToUpper(value))
	var b strings.Builder
	for i, r := range runes {
		between := i > 0 && i+1 < len(runes) && unicode.IsDigit(runes[i-1]) && unicode.IsDigit(runes[i+1])
		switch {
		case r == '×':
			b.WriteRune('X')
		case r == ',' && between:
			b.WriteRune('.')
		case unicode.IsLetter(r) || unicode.IsDigit(r), (r == '.' || r == '/') && between:
			b.WriteRune(r)
		}
	}
	return b.String()
}
