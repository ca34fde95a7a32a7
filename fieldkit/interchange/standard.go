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
func (a *area) tieByStandard(designation string, parts []*fieldkit.Part) {
	t := &tie{}
	for _, p := range parts {
		for _, n := range p.Numbers {
			if designationOf(p, n) != designation {
				continue
			}
			if name := strings.TrimSpace(n.From + " " + n.Value); t.name == "" || name < t.name {
				t.name = name
			}
			t.add(member{a.index[p.ID], bearing(n).Strength()})
		}
	}
	if len(t.members) < 2 {
		return
	}
	for _, m := range t.members {
		a.tied[m.part] = append(a.tied[m.part], t)
	}
}

// designationsOf gives the designations a part bears, each once.
func designationsOf(p *fieldkit.Part) (list []string) {
	for _, n := range p.Numbers {
		if d := designationOf(p, n); d != "" && !slices.Contains(list, d) {
			list = append(list, d)
		}
	}
	return list
}

// designationOf is what two parts of one kind have in common that bear the same
// designation; none for other numbers.
func designationOf(p *fieldkit.Part, n fieldkit.Number) string {
	if n.Issuer != fieldkit.StandardNumber {
		return ""
	}
	folded := FoldDesignation(n.Value)
	if folded == "" {
		return ""
	}
	return p.Kind + "\x00" + folded
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
