package fit

import (
	"slices"
	"strings"
	"unicode"
)

// How the words of two parts compare.
type likeness int

const (
	same   likeness = iota
	hazy            // one says more than the other: what it leaves out may differ
	unlike          // they say different things
)

// compareWords compares what two people wrote of one attribute. Words of the
// vocabulary are compared by meaning, figures by themselves; of other words one may
// leave out what the other says.
func compareWords(wanted, got string, vocabulary []string) likeness {
	w, g := readWords(wanted, vocabulary), readWords(got, vocabulary)
	if slices.Equal(w.all, g.all) {
		return same
	}
	figures, meanings := compareSets(w.figures, g.figures), compareSets(w.meanings, g.meanings)
	switch {
	case figures == unlike || meanings == unlike:
		return unlike
	case len(w.meanings) > 0 && meanings == same && figures == same:
		return same
	case figures == hazy || meanings == hazy:
		return hazy
	case len(w.figures) > 0 && compareSets(w.all, g.all) == unlike && len(vocabulary) == 0:
		return hazy // the same figures in other words
	}
	return compareSets(w.all, g.all)
}

// compareSets compares sorted lists as sets: unlike if each has something the other
// has not.
func compareSets(a, b []string) likeness {
	if slices.Equal(a, b) {
		return same
	}
	within := func(a, b []string) bool {
		return !slices.ContainsFunc(a, func(x string) bool { return !slices.Contains(b, x) })
	}
	if within(a, b) || within(b, a) {
		return hazy
	}
	return unlike
}

// reading of words: all words, sorted; among them figures; and meanings of the
// vocabulary.
type wordReading struct{ all, figures, meanings []string }

func readWords(text string, vocabulary []string) (r wordReading) {
	tokens := tokensOf(text)
	rest := " " + strings.Join(tokens, " ") + " "
	for _, phrase := range longestFirst(vocabulary) {
		if folded := " " + strings.Join(tokensOf(phrase.text), " ") + " "; strings.Contains(rest, folded) {
			rest = strings.ReplaceAll(rest, folded, " ")
			r.meanings = append(r.meanings, phrase.meaning)
		}
	}
	r.all = tokens
	for _, token := range strings.Fields(rest) { // a figure of the vocabulary is a meaning
		if strings.ContainsFunc(token, unicode.IsDigit) {
			r.figures = append(r.figures, token)
		}
	}
	for _, list := range []*[]string{&r.all, &r.figures, &r.meanings} {
		slices.Sort(*list)
		*list = slices.Compact(*list)
	}
	return r
}

type phrase struct{ text, meaning string }

// longestFirst lists the phrases of a vocabulary, so that "not tapped" is found before
// "tapped".
func longestFirst(vocabulary []string) (list []phrase) {
	for _, entry := range vocabulary {
		words := strings.Split(entry, "|")
		for _, w := range words {
			list = append(list, phrase{w, words[0]})
		}
	}
	slices.SortStableFunc(list, func(a, b phrase) int { return len(b.text) - len(a.text) })
	return list
}

// series of a thread follow from its diameter and pitch; articles say nothing.
var noise = []string{"unf", "unc", "uns", "un", "unef", "a", "an", "the", "and", "of", "with", "on", "at"}

// tokensOf splits what was written into words in small letters: "M16×1.5 O-ring" gives
// m16x1.5 and o-ring, "9/16-18UNF-2A" gives 9/16-18.
func tokensOf(text string) (list []string) {
	text = strings.NewReplacer("×", "x", "–", "-", "−", "-").Replace(strings.ToLower(text))
	for _, token := range strings.FieldsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("./-+#°", r)
	}) {
		token = strings.Trim(token, ".-")
		if strings.ContainsFunc(token, unicode.IsDigit) {
			token = threadOnly(token)
		}
		if token != "" && !slices.Contains(noise, token) {
			list = append(list, token)
		}
	}
	return list
}

// threadOnly cuts series and tolerance class off an inch thread.
func threadOnly(token string) string {
	for _, series := range []string{"-unef", "-unf", "-unc", "-uns", "-un", "unef", "unf", "unc", "uns", "un"} {
		if head, tail, found := strings.Cut(token, series); found && head != "" && (tail == "" || tail[0] == '-') {
			return head
		}
	}
	return token
}

// alternatives splits what may be: "E or F".
func alternatives(text string) []string {
	var list []string
	for _, one := range strings.Split(strings.ReplaceAll(text, ";", " or "), " or ") {
		if one = strings.TrimSpace(one); one != "" {
			list = append(list, one)
		}
	}
	return list
}

// compareOrder compares the letters of two grades by an order from low to high, the
// last word of each, letter by letter. ok is false if one is no such grade.
func compareOrder(wanted, got string, order []string) (below, above, ok bool) {
	w, g := lastWord(wanted), lastWord(got)
	if w == "" || len(w) != len(g) {
		return false, false, false
	}
	for i := range w {
		a, b := slices.Index(order, w[i:i+1]), slices.Index(order, g[i:i+1])
		if a < 0 || b < 0 {
			return false, false, false
		}
		below, above = below || b < a, above || b > a
	}
	return below, above, true
}

func lastWord(text string) string {
	words := strings.Fields(strings.ToUpper(text))
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}

// SameWords reports whether two texts say the same of an attribute.
func (a Attribute) SameWords(one, other string) bool {
	return compareWords(one, other, a.Spec.Words) == same
}
