package fit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Rule says how a value of the part in hand is compared with that of the one wanted.
type Rule string

const (
	Equal   Rule = "equal"            // the same count, the same words
	Within  Rule = "within tolerance" // no more below or above than allowed
	AtLeast Rule = "at least"
	AtMost  Rule = "at most"
	Listed  Rule = "one of a list" // the wanted part names several: "E or F"
)

// Rules lists all rules.
var Rules = []Rule{Equal, Within, AtLeast, AtMost, Listed}

// Spec is how one attribute of a kind is compared, as data keeps it. The catalog's
// attribute of the same name says how to measure it and why it matters.
type Spec struct {
	Name    string   `json:"name"`
	Rule    Rule     `json:"rule"`
	Below   Slack    `json:"below,omitempty"` // how far below and above the wanted is as good
	Above   Slack    `json:"above,omitempty"`
	Order   []string `json:"order,omitempty"`   // letters from the lowest to the highest, for at least and at most of words
	Words   []string `json:"words,omitempty"`   // what is told apart: "integral|on the body", synonyms after a bar
	Settles []string `json:"settles,omitempty"` // attributes that agree once this one does
	Worn    *Worn    `json:"worn,omitempty"`
	Change  *Change  `json:"change,omitempty"`
	Source  string   `json:"source"` // of the rule and the tolerance
}

// Worn is how far a worn part may measure below and above a new one.
type Worn struct {
	Below Slack `json:"below,omitempty"`
	Above Slack `json:"above,omitempty"`
}

// Change is what makes a part fit that differs. Below and Above bound what it can make
// up for, When the words it is for; without bounds it is for any difference.
type Change struct {
	Do    string   `json:"do"`
	Below Slack    `json:"below,omitempty"`
	Above Slack    `json:"above,omitempty"`
	When  []string `json:"when,omitempty"`
}

// Slack is an allowance: an amount of the attribute's dimension, or a share of the
// wanted value.
type Slack struct {
	Amount  fieldkit.Value
	Share   int64 // thousandths of the wanted value
	Written bool  // it was given, be it nothing
}

// UnmarshalText reads "0.5 mm" or "3 %".
func (s *Slack) UnmarshalText(text []byte) error {
	if number, is := strings.CutSuffix(strings.TrimSpace(string(text)), "%"); is {
		share, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil || share < 0 || share > 1000 {
			return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not a share", text), Do: "write 3 %"}
		}
		*s = Slack{Share: int64(share*10 + 0.5), Written: true}
		return nil
	}
	v, err := fieldkit.ParseValue(string(text))
	if err != nil || v.Dim == fieldkit.DimText || v.Base < 0 {
		return &fieldkit.Error{Kind: fieldkit.BadInput, What: fmt.Sprintf("%q is not an allowance", text), Do: "write 0.5 mm or 3 %"}
	}
	*s = Slack{Amount: v, Written: true}
	return nil
}

// MarshalText writes what UnmarshalText reads.
func (s Slack) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

func (s Slack) String() string {
	switch {
	case !s.Written:
		return ""
	case s.Share > 0:
		return strconv.FormatFloat(float64(s.Share)/10, 'f', -1, 64) + " %"
	case s.Amount.IsZero():
		return "0 %"
	}
	return s.Amount.String()
}

// of gives the allowance in base units for a wanted value.
func (s Slack) of(wanted fieldkit.Value) int64 {
	if s.Share > 0 {
		return wanted.Base / 1000 * s.Share
	}
	return s.Amount.Base
}

// Attribute is an attribute of a kind with how it is compared.
type Attribute struct {
	fieldkit.Attribute
	Spec Spec
}

// Schema is what decides whether a part of one kind fits.
type Schema struct {
	Kind       fieldkit.PartKind
	Attributes []Attribute // in the order of the kind
	// Designated names the attributes that a standard designation of the part defines:
	// 6207-2RS the boundary dimensions, 37x12.50R17LT the size but not the load range.
	Designated []string
}

// Careful reports a kind of which a wrong part is dangerous: it carries a caution.
func (s Schema) Careful() bool { return s.Kind.Caution != "" }

// Named finds an attribute; ok is false if the kind has none of that name.
func (s Schema) Named(name string) (a Attribute, ok bool) {
	for _, a := range s.Attributes {
		if sameName(a.Name, name) {
			return a, true
		}
	}
	return a, false
}

func sameName(a, b string) bool { return foldName(a) == foldName(b) }

// foldName lets "bolt_spacing" name the bolt spacing.
func foldName(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.NewReplacer("_", " ", "-", " ").Replace(name))), " ")
}

// SchemaOf joins a kind of the catalog with its specs. The error, of kind BadInput,
// names the first spec that breaks a rule: every attribute of the kind has one, each
// with a source, of a rule its dimension allows. Designated are the attributes that a
// standard designation of such a part defines.
func SchemaOf(kind fieldkit.PartKind, specs []Spec, designated ...string) (Schema, error) {
	s := Schema{Kind: kind, Designated: designated}
	for _, name := range designated {
		if !slices.ContainsFunc(kind.Deciding, func(a fieldkit.Attribute) bool { return a.Name == name }) {
			return Schema{}, bad(kind.ID, name, "a designation defines it, and the kind has no such attribute", "correct the name")
		}
	}
	for _, spec := range specs {
		if !slices.ContainsFunc(kind.Deciding, func(a fieldkit.Attribute) bool { return a.Name == spec.Name }) {
			return Schema{}, bad(kind.ID, spec.Name, "the kind has no such attribute", "correct the name")
		}
	}
	for _, a := range kind.Deciding {
		i := slices.IndexFunc(specs, func(spec Spec) bool { return spec.Name == a.Name })
		if i < 0 {
			return Schema{}, bad(kind.ID, a.Name, "nothing says how it is compared", "add it")
		}
		if what, do := specs[i].fault(a, kind); what != "" {
			return Schema{}, bad(kind.ID, a.Name, what, do)
		}
		s.Attributes = append(s.Attributes, Attribute{a, specs[i]})
	}
	return s, nil
}

func bad(kind, name, what, do string) error {
	return &fieldkit.Error{Kind: fieldkit.BadInput, Where: kind + ", " + name, What: what, Do: do}
}

// fault says what is wrong with a spec, nothing if it is sound.
func (s Spec) fault(a fieldkit.Attribute, kind fieldkit.PartKind) (what, do string) {
	words := a.Dim == fieldkit.DimText
	switch {
	case !slices.Contains(Rules, s.Rule):
		return fmt.Sprintf("%q is no rule", s.Rule), fmt.Sprintf("write one of %q", Rules)
	case strings.TrimSpace(s.Source) == "":
		return "it says no source", "name the standard, or common practice"
	case a.Why == "" || a.How == "":
		return "the catalog does not say how to measure it and why it matters", "write it there"
	case words && s.Rule == Within:
		return "words have no tolerance", "use equal"
	case words && (s.Rule == AtLeast || s.Rule == AtMost) && len(s.Order) == 0:
		return "words have no order", "give the order"
	case !words && s.Rule == Listed, !words && len(s.Words)+len(s.Order) > 0:
		return "an amount is compared by its size", "use within tolerance"
	case s.Rule == Within && !(s.Below.Written && s.Above.Written):
		return "the tolerance is missing", "give below and above"
	case s.Change != nil && strings.TrimSpace(s.Change.Do) == "":
		return "the change is not said", "say what must be done"
	}
	allowances := []Slack{s.Below, s.Above}
	if s.Worn != nil {
		allowances = append(allowances, s.Worn.Below, s.Worn.Above)
	}
	if s.Change != nil {
		allowances = append(allowances, s.Change.Below, s.Change.Above)
	}
	for _, slack := range allowances {
		if slack.Written && !slack.Amount.IsZero() && slack.Amount.Dim != a.Dim {
			return fmt.Sprintf("an allowance is a %s, the attribute a %s", slack.Amount.Dim, a.Dim), "write it in the attribute's unit"
		}
	}
	for _, name := range s.Settles {
		if name == a.Name || !slices.ContainsFunc(kind.Deciding, func(other fieldkit.Attribute) bool { return other.Name == name }) {
			return fmt.Sprintf("it settles %q, which the kind has not", name), "correct the name"
		}
	}
	return "", ""
}

// Tolerance says in words what the rule allows: "within −0 mm +5 mm".
func (a Attribute) Tolerance(first fieldkit.System) string {
	show := func(s Slack) string {
		if s.Share > 0 || s.Amount.IsZero() {
			return s.String()
		}
		return s.Amount.Show(first)
	}
	s := a.Spec
	switch {
	case s.Rule == Within && s.Below == s.Above:
		return "within ±" + show(s.Below)
	case s.Rule == Within:
		return "from " + show(s.Below) + " less to " + show(s.Above) + " more"
	case s.Rule == AtLeast && s.Below.Written && s.Below.of(fieldkit.Value{Base: 1000}) > 0:
		return "at least, less " + show(s.Below)
	case s.Rule == AtMost && s.Above.Written && s.Above.of(fieldkit.Value{Base: 1000}) > 0:
		return "at most, plus " + show(s.Above)
	}
	return string(s.Rule)
}
