package lookup

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Bounds of a query; what is beyond them is left out, never an error.
const (
	MaxQuery = 120 // bytes
	MaxWords = 10
	MaxHits  = 200

	maxNumberWords  = 6  // "K 44 10 B" is four
	maxMeasureWords = 4  // "1-3/8 in" is four
	maxSegments     = 64 // bits of a set
)

// idle are words that need not match anything.
var idle = map[string]bool{
	"a": true, "an": true, "and": true, "at": true, "for": true, "from": true, "in": true,
	"my": true, "of": true, "on": true, "or": true, "the": true, "to": true, "with": true,
}

// query is what was typed, cut into words.
type query struct {
	text  string
	words []span
	idle  []bool
	asked int // words that are not idle
}

func parse(text string) query {
	if len(text) > MaxQuery {
		cut := MaxQuery
		for cut > 0 && !utf8.RuneStart(text[cut]) {
			cut--
		}
		text = text[:cut]
	}
	q := query{text: strings.ToValidUTF8(text, " ")}
	for _, w := range split(q.text) {
		if strings.Trim(w.text, "*") != "" && len(q.words) < MaxWords {
			q.words = append(q.words, w)
		}
	}
	q.idle = make([]bool, len(q.words))
	for i, w := range q.words {
		q.idle[i] = idle[w.text]
		if !q.idle[i] {
			q.asked++
		}
	}
	if q.asked == 0 { // "on" alone is asked for after all
		q.idle, q.asked = make([]bool, len(q.words)), len(q.words)
	}
	return q
}

// joined gives words i to j run together, as a number would be typed with spaces.
func (q query) joined(i, j int) string {
	var b strings.Builder
	for _, w := range q.words[i:j] {
		b.WriteString(w.text)
	}
	return b.String()
}

// slice gives words i to j as they were typed, with an inch or foot mark behind.
func (q query) slice(i, j int) string {
	start, end := q.words[i].start, q.words[j-1].end
	for _, mark := range []string{"\"", "''", "'", "″", "′", "”", "°"} {
		if strings.HasPrefix(q.text[end:], mark) {
			end += len(mark)
			break
		}
	}
	return q.text[start:end]
}

// beside gives the words before and behind words i to j.
func (q query) beside(i, j int) (list []string) {
	if i > 0 {
		list = append(list, singular(q.words[i-1].text))
	}
	if j < len(q.words) {
		list = append(list, singular(q.words[j].text))
	}
	return list
}

// names reports whether a word is one of the name of a measurement.
func (p *phrase) names(word string) bool {
	return slices.ContainsFunc(p.named, func(w string) bool { return w == word })
}

// plainWord is from how many letters a word without a figure is no piece of a number.
const plainWord = 4

// mayBeStamp reports whether words i to j may be a number misread: "26 017 305" may,
// "305 steering pump" is not tried.
func (q query) mayBeStamp(i, j int) bool {
	figures := false
	for _, w := range q.words[i:j] {
		has := strings.IndexFunc(w.text, func(r rune) bool { return unicode.IsDigit(r) || r == '?' || r == '*' }) >= 0
		if !has && len(w.text) >= plainWord {
			return false
		}
		figures = figures || has
	}
	return figures
}

// segment is one way to understand some words of the query: as a word, a number, a
// measurement or a year, with the phrases that match it.
type segment struct {
	from, to int // words of the query
	asked    int // of them not idle
	as       field
	typed    string
	size     size
	matches  []match
}

type match struct {
	phrase  int32
	quality float64 // of 100
}

// segments finds every way to understand a piece of the query that matches anything.
func (ix *Index) segments(q query, loose bool) []segment {
	var list []segment
	keep := func(s segment) {
		for i := s.from; i < s.to; i++ {
			if !q.idle[i] {
				s.asked++
			}
		}
		if len(s.matches) > 0 && s.asked > 0 && len(list) < maxSegments {
			list = append(list, s)
		}
	}
	exact := ix.exactNumbers(q)
	for i := range q.words {
		last := i == len(q.words)-1
		keep(ix.asWord(segment{from: i, to: i + 1, typed: q.words[i].text}, last, loose))
		keep(ix.asYear(segment{from: i, to: i + 1, typed: q.words[i].text}))
		for j := i + 1; j <= min(i+maxNumberWords, len(q.words)); j++ {
			keep(ix.asNumber(segment{from: i, to: j, typed: q.joined(i, j)}, q.mayBeStamp(i, j) && !inside(exact, i, j)))
			if j <= i+maxMeasureWords {
				for _, s := range ix.asMeasure(segment{from: i, to: j, typed: q.slice(i, j)}, q.beside(i, j)) {
					keep(s)
				}
			}
		}
		if i > 0 {
			keep(ix.asWord(segment{from: i - 1, to: i + 1, typed: q.joined(i-1, i+1)}, last, false))
		}
	}
	return list
}

// exactNumbers gives the runs of words that are a number as it is kept. What lies
// inside one is not tried as misread.
func (ix *Index) exactNumbers(q query) (runs [][2]int) {
	for i := range q.words {
		for j := min(i+maxNumberWords, len(q.words)); j > i; j-- {
			if ix.hasNumber(q.joined(i, j)) {
				runs = append(runs, [2]int{i, j})
				break
			}
		}
	}
	return runs
}

// hasNumber reports whether something bears a number just so.
func (ix *Index) hasNumber(typed string) bool {
	n := ix.numbers.find(typed)
	return n != nil && slices.ContainsFunc(n.phrases, func(p int32) bool { return len(ix.phrases[p].entries) > 0 })
}

func inside(runs [][2]int, i, j int) bool {
	return slices.ContainsFunc(runs, func(run [2]int) bool {
		return run[0] <= i && j <= run[1] && j-i < run[1]-run[0]
	})
}

func (ix *Index) asWord(s segment, last, loose bool) segment {
	s.as = fieldName
	ix.words.each(s.typed, last, loose, func(w *word, quality float64) {
		for _, p := range w.phrases {
			ph := &ix.phrases[p]
			if len(ph.entries) == 0 {
				continue
			}
			// Of two names with the word the shorter is nearer to what was meant.
			spare := 0.005 * float64(min(ph.words, 10))
			s.matches = append(s.matches, match{p, worth[ph.field] * (quality - spare)})
		}
	})
	return s
}

func (ix *Index) asNumber(s segment, stamp bool) segment {
	s.as = fieldNumber
	ix.numbers.each(s.typed, stamp, func(n *number, quality float64) {
		for _, p := range n.phrases {
			if ph := &ix.phrases[p]; len(ph.entries) > 0 {
				s.matches = append(s.matches, match{p, worth[ph.field] * quality})
			}
		}
	})
	return s
}

// asMeasure reads a size. A number without a unit is surer where a word beside it names
// what was measured: 18 tpi, bore 35.
func (ix *Index) asMeasure(s segment, beside []string) (list []segment) {
	if !unicode.IsDigit(rune(s.typed[0])) && !strings.ContainsAny(s.typed, "½¼¾⅛⅜⅝⅞⅓⅔") {
		return nil
	}
	for _, size := range sizesOf(s.typed) {
		one := s
		one.as, one.size = fieldMeasure, size
		ix.measures.each(size, func(p int32, quality float64) {
			ph := &ix.phrases[p]
			if len(ph.entries) == 0 {
				return
			}
			named := slices.ContainsFunc(beside, ph.names)
			if size.quality < 1 && named {
				quality /= bareMeasure
			}
			if ph.aside && !named {
				quality *= asideMeasure
			}
			one.matches = append(one.matches, match{p, worth[fieldMeasure] * quality})
		})
		list = append(list, one)
	}
	return list
}

func (ix *Index) asYear(s segment) segment {
	s.as = fieldYears
	year, err := strconv.Atoi(s.typed)
	if err != nil || len(s.typed) != 4 {
		return s
	}
	for _, p := range ix.years {
		if ph := &ix.phrases[p]; ph.from <= year && year <= ph.to && len(ph.entries) > 0 {
			s.matches = append(s.matches, match{p, worth[fieldYears]})
		}
	}
	return s
}
