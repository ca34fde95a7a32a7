package counter

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// issuers is the order in which numbers help at a counter.
var issuers = []fieldkit.Issuer{fieldkit.MakerNumber, fieldkit.ReplacementNumber, fieldkit.StandardNumber, fieldkit.CastingMark}

var issuerWords = map[fieldkit.Issuer]string{
	fieldkit.MakerNumber:       "maker's number",
	fieldkit.ReplacementNumber: "replacement number",
	fieldkit.StandardNumber:    "standard designation",
	fieldkit.CastingMark:       "casting mark, not a part number",
}

// Number is a part number as it is shown across the counter.
type Number struct {
	Value  string
	Issuer fieldkit.Issuer
	From   string // brand, maker or standard
	Label  string // "replacement number, Kestrel"
	Proof  string // "number read, 11 Jun 2022, Marit"
	Proven bool   // good enough to ask by this number alone
}

// numbersOf lists the numbers of a part: maker's, replacement, standard, casting.
func numbersOf(p fieldkit.Part) (list []Number) {
	for _, n := range p.Numbers {
		label := issuerWords[n.Issuer]
		if n.From != "" {
			label = strings.TrimPrefix(label+", "+n.From, ", ")
		}
		list = append(list, Number{n.Value, n.Issuer, n.From, label, proofOfNumber(n), proven(n)})
	}
	order.By(list, func(a, b Number) int {
		return slices.Index(issuers, a.Issuer) - slices.Index(issuers, b.Issuer)
	})
	return list
}

// proven reports whether a store can be asked for the number alone: it was read off
// the part, or better; a standard designation says what it is unless it is only
// listed, seen or said. A casting mark is no number a store can look up.
func proven(n fieldkit.Number) bool {
	switch {
	case n.Issuer == fieldkit.CastingMark || strings.TrimSpace(n.Value) == "":
		return false
	case n.Proof == nil:
		return n.Issuer == fieldkit.StandardNumber
	}
	return n.Proof.How.Strength() >= fieldkit.NumberRead.Strength()
}

// hasProven reports whether any number of a part is proven.
func hasProven(p fieldkit.Part) bool { return slices.ContainsFunc(p.Numbers, proven) }

// unproven finds the number that is nearest to being proven, if none is.
func unproven(p fieldkit.Part) (best fieldkit.Number, ok bool) {
	for _, n := range p.Numbers {
		if n.Issuer == fieldkit.CastingMark || strings.TrimSpace(n.Value) == "" {
			continue
		}
		if !ok || strength(n.Proof) > strength(best.Proof) {
			best, ok = n, true
		}
	}
	return best, ok
}

func strength(p *fieldkit.Proof) int {
	if p == nil {
		return 0
	}
	return p.How.Strength()
}

func proofOfNumber(n fieldkit.Number) string {
	if n.Proof == nil && n.Issuer == fieldkit.StandardNumber {
		return string(fieldkit.PublishedStandard)
	}
	return proofWords(n.Proof)
}

// proofWords tells how, when and by whom something was proven.
func proofWords(p *fieldkit.Proof) string {
	if p == nil || p.How == "" {
		return "how it is known is not written down"
	}
	words := []string{string(p.How)}
	if !p.On.IsZero() {
		words = append(words, p.On.Show())
	}
	if p.By != "" {
		words = append(words, p.By)
	}
	return strings.Join(words, ", ")
}

// spoken gives the numbers of a part in one line, with their issuers.
func spoken(p fieldkit.Part) (list []string) {
	for _, n := range numbersOf(p) {
		if n.Issuer == fieldkit.CastingMark {
			continue
		}
		text := n.Value
		if n.From != "" {
			text = n.From + " " + n.Value
		}
		list = append(list, text)
	}
	return list
}
