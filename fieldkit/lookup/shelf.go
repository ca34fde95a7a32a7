package lookup

import (
	"strings"
	"sync"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// Shelf is the published tables made ready to be searched beside a kit. It is made
// once, does not change, and serves any number of kits and goroutines.
type Shelf struct {
	book   *standards.Handbook
	index  *Index
	byStem map[string]int32 // entries by kind and stem

	// What the numbers of parts name is remembered by their text: with a changed kit
	// only new numbers are read.
	mu    sync.Mutex
	said  map[string][]string // kinds and stems
	lines map[string]string   // second lines of what was found
}

// Row is a row of a published table that is no designation: a retaining ring, a bulb,
// what a load index stands for.
type Row struct {
	Table   string   // "bulbs"
	Key     []string // the cells that tell the row from all others of its table
	Name    string   // the same in one text: "H4"
	Title   string   // "bulb H4"
	Words   []string
	Figures []standards.Dim
	Source  string
}

// ID names the row among all tables.
func (r Row) ID() string { return r.Table + ": " + r.Name }

// NewShelf makes the shelf of all a handbook lists and of the other rows: some tens
// of milliseconds.
func NewShelf(book *standards.Handbook, rows []Row) *Shelf {
	s := &Shelf{book: book, byStem: map[string]int32{}, said: map[string][]string{}, lines: map[string]string{}}
	b := newBuilder(fieldkit.Kit{}, fieldkit.Catalog{})
	b.ix.published = true
	for _, kind := range book.Kinds() {
		names := b.share(fieldKindName, string(kind))
		for _, name := range tradeNames[kind] {
			names = append(names, b.share(fieldSynonym, name)...)
		}
		for _, code := range book.Suffixes(kind) {
			names = append(names, b.share(fieldAttribute, code)...)
		}
		for _, d := range book.Listed(kind) {
			if _, twice := s.byStem[stemKey(d)]; !twice {
				s.byStem[stemKey(d)] = int32(len(b.ix.entries))
			}
			b.designation(d, names)
		}
	}
	for i := range rows {
		b.row(&rows[i])
	}
	b.ix.sort()
	s.index = b.ix
	return s
}

// stemKey is what all parts of one size share, whatever else is stamped on them.
func stemKey(d standards.Designation) string { return keyOf(d.Kind(), standards.Stem(d)) }

func keyOf(kind standards.Kind, stem string) string { return string(kind) + " " + stem }

// usualSuffixes are stamped on most ball bearings of a rig, and read together with
// the number.
var usualSuffixes = []string{"2RS", "ZZ"}

func (b *builder) designation(d standards.Designation, names []int32) {
	text, kind := d.String(), string(d.Kind())
	phrases := []int32{b.phrase(phrase{field: fieldDesignation, text: text, of: kind})}
	phrases = append(phrases, b.share(fieldName, text)...)
	if short := standards.ShortName(d); short != "" {
		phrases = append(phrases, b.phrase(phrase{field: fieldDesignation, text: short, of: kind}))
	}
	if d.Kind() == standards.KindBall {
		for _, suffix := range usualSuffixes {
			phrases = append(phrases, b.phrase(phrase{field: fieldSuffixed, text: text + "-" + suffix, of: kind}))
		}
	}
	for i, dim := range d.Dims() {
		phrases = append(phrases, b.figure(dim, i > 0)...)
	}
	b.add(len(b.ix.entries), entry{kind: DesignationHit, id: text, title: text, designation: d, phrases: append(phrases, names...)})
}

func (b *builder) row(r *Row) {
	phrases := []int32{b.phrase(phrase{field: fieldDesignation, text: r.Name, of: strings.ReplaceAll(r.Table, "_", " ")})}
	phrases = append(phrases, b.share(fieldName, r.Title)...)
	phrases = append(phrases, b.share(fieldSynonym, strings.ReplaceAll(r.Table, "_", " "))...)
	for _, word := range r.Words {
		phrases = append(phrases, b.share(fieldAttribute, word)...)
	}
	for i, dim := range r.Figures {
		phrases = append(phrases, b.figure(dim, i > 0)...)
	}
	b.add(len(b.ix.entries), entry{kind: RowHit, id: r.ID(), title: r.Title, row: r, phrases: phrases})
}

// figure enters a figure of a designation by its value and its name. The first one of
// a designation is what people mean when they give a size alone.
func (b *builder) figure(d standards.Dim, aside bool) []int32 {
	label := standards.Label(d.Name)
	phrases := b.share(fieldAttribute, label)
	if label != d.Name {
		phrases = append(phrases, b.share(fieldAttribute, strings.ReplaceAll(d.Name, "_", " "))...)
	}
	if d.Value.Dim == fieldkit.DimText {
		return append(phrases, b.share(fieldAttribute, d.Value.Text)...)
	}
	return append(phrases, b.measure(label, d.Value, aside))
}

// whole is the score of a query that reads as a designation from end to end, and what
// is off it where less is certain.
const (
	wholeRead     = 94.0
	unlistedRead  = 3.0
	bareRead      = 14.0
	correctedRead = 10.0
)

// read gives the designations that the whole query is, or all of it but the words for
// its kind.
func (s *Shelf) read(q query, from *search) (found []scored) {
	take := func(list []standards.Reading, off float64) {
		for _, r := range list {
			if v, is := r.Designation.(standards.VIN); is && !hasFigures(v.Text) {
				continue // seventeen letters of words
			}
			f := scored{from: from, entry: -1, rank: -1, read: r.Designation, score: wholeRead - off}
			if e, ok := s.byStem[stemKey(r.Designation)]; ok {
				f.entry, f.rank = e, from.ix.entries[e].rank
			}
			if !r.Listed {
				f.score -= unlistedRead
			}
			if r.Bare {
				f.score -= bareRead
			}
			found = append(found, f)
		}
	}
	take(s.book.Readings(q.text), 0)
	if rest, kinds := withoutTradeWords(q); rest != "" {
		list := s.book.Readings(rest)
		kept := list[:0]
		for _, r := range list {
			if kinds[r.Designation.Kind()] {
				r.Bare = false
				kept = append(kept, r)
			}
		}
		take(kept, 1)
	}
	if len(found) == 0 {
		for _, text := range corrected(q.text) {
			take(s.book.Readings(text), correctedRead)
		}
	}
	return found
}

// hasFigures reports whether a text holds as many figures as any vehicle number does:
// its serial number ends in four.
func hasFigures(text string) bool {
	figures := 0
	for _, r := range text {
		if r >= '0' && r <= '9' {
			figures++
		}
	}
	return figures >= 4
}

// corrected gives the ways to read a text whose letters between figures were figures,
// or that holds one character that cannot be read. Designations of tables are found
// by their names: this is for sizes that go by rule, such as those of tyres and belts.
func corrected(text string) (list []string) {
	runes := []rune(strings.ToUpper(text))
	if open := strings.Count(text, "?"); open == 1 {
		for digit := '0'; digit <= '9'; digit++ {
			list = append(list, strings.Replace(text, "?", string(digit), 1))
		}
		return list
	} else if open > 1 || strings.Contains(text, "*") {
		return nil
	}
	digit := func(i int) bool {
		return i >= 0 && i < len(runes) && (runes[i] >= '0' && runes[i] <= '9' || runes[i] == '.')
	}
	changed := false
	for i, r := range runes {
		if plain := skeletonOf(r - 'A' + 'a'); r >= 'A' && r <= 'Z' && plain >= '0' && plain <= '9' && (digit(i-1) || digit(i+1)) {
			runes[i], changed = plain, true
		}
	}
	if !changed {
		return nil
	}
	return []string{string(runes)}
}

// named gives the kinds and stems that a number of a part names.
func (s *Shelf) named(number string) []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	keys, known := s.said[number]
	if known {
		return keys
	}
	for _, r := range s.book.Readings(number) {
		keys = append(keys, stemKey(r.Designation))
		for _, half := range standards.Halves(r.Designation) {
			keys = append(keys, keyOf(r.Designation.Kind(), half))
		}
	}
	s.said[number] = keys
	return keys
}
