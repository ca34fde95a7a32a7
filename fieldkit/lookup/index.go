package lookup

import (
	"slices"
	"strings"
	"sync"

	"trailfieldkit/fieldkit"
)

// Index is a kit and a catalog made ready to be searched. Several goroutines may
// search it; Following must not run beside them.
type Index struct {
	entries  []entry
	phrases  []phrase
	words    vocabulary
	numbers  numberTable
	measures measureTable
	years    []int32

	published bool // the entries are of tables, not of a kit
	shelf     *Shelf
	bearers   map[string][]int32 // by kind and stem of a designation: the parts that bear it, and some that are gone
	pool      sync.Pool          // of *scratch
	made      *builder           // what it was made with; none for tables
}

// New makes the index: some milliseconds for a kit of a few hundred parts. With a
// shelf the published tables are searched too; nil leaves them out.
func New(kit fieldkit.Kit, cat fieldkit.Catalog, shelf *Shelf) *Index {
	b := newBuilder(kit, cat)
	b.ix.shelf = shelf
	b.ix.made = b
	for _, p := range kit.Parts.Refs() {
		b.count(p, 1)
	}
	b.catalog()
	b.donors()
	for i, p := range kit.Positions.Refs() {
		b.position(i, p)
	}
	for i, p := range kit.Parts.Refs() {
		b.part(i, p)
	}
	for i := range cat.PartKinds {
		b.kind(i)
	}
	b.tools()
	b.ix.sort()
	return b.ix
}

func (ix *Index) sort() {
	ix.words.sort()
	ix.numbers.sort()
	ix.measures.sort()
}

func newBuilder(kit fieldkit.Kit, cat fieldkit.Catalog) *builder {
	return &builder{
		ix: &Index{bearers: map[string][]int32{}}, kit: kit, cat: cat, entryOf: map[thing]int32{},
		shared: map[common]int32{}, sizes: map[sized]int32{}, names: map[string][]string{},
		kindPhrases: map[string][]int32{}, donorPhrases: map[string][]int32{}, ofKind: map[string]int{}, fromDonor: map[string]int{},
	}
}

// builder makes the entries of an index.
type builder struct {
	ix      *Index
	kit     fieldkit.Kit
	cat     fieldkit.Catalog
	entryOf map[thing]int32 // those that are not gone

	shared map[common]int32 // phrases kept once
	sizes  map[sized]int32  // measurements kept once
	names  map[string][]string

	kindPhrases  map[string][]int32
	donorPhrases map[string][]int32
	ofKind       map[string]int // parts by kind
	fromDonor    map[string]int // parts by donor
}

// thing is what an entry is of.
type thing struct {
	kind Kind
	id   string
}

// common is a phrase that many may have.
type common struct {
	field field
	text  string
}

// phrase adds a phrase of its own.
func (b *builder) phrase(p phrase) int32 {
	id := int32(len(b.ix.phrases))
	switch p.field {
	case fieldNumber, fieldDesignation, fieldHalf, fieldSuffixed:
		b.ix.numbers.add(p.text, id)
	case fieldMeasure:
		b.ix.measures.add(p.value, id)
		p.named = b.wordsOf(p.of)
	case fieldYears:
		b.ix.years = append(b.ix.years, id)
	default:
		p.words = b.ix.words.add(p.text, id)
	}
	b.ix.phrases = append(b.ix.phrases, p)
	return id
}

// share adds a phrase that many may have, or finds it.
func (b *builder) share(f field, text string) []int32 {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	id, ok := b.shared[common{f, text}]
	if !ok {
		id = b.phrase(phrase{field: f, text: text})
		b.shared[common{f, text}] = id
	}
	return []int32{id}
}

// wordsOf gives the words of the name of a measurement.
func (b *builder) wordsOf(name string) []string {
	words, ok := b.names[name]
	if !ok {
		for _, w := range split(name) {
			words = append(words, singular(w.text))
		}
		b.names[name] = words
	}
	return words
}

// sized is a measurement that many may have.
type sized struct {
	name  string
	value fieldkit.Value
	aside bool
}

// measure adds a measurement, or finds it. One that is aside counts a little less than
// the one a part is called by.
func (b *builder) measure(name string, v fieldkit.Value, aside bool) int32 {
	key := sized{name, v, aside}
	id, ok := b.sizes[key]
	if !ok {
		id = b.phrase(phrase{field: fieldMeasure, of: name, value: v, aside: aside})
		b.sizes[key] = id
	}
	return id
}

// The entries of a kit come in this order, each kind in that of its list: of equal hits
// the earlier is shown first.
var section = map[Kind]int64{DonorHit: 0, PositionHit: 1, PartHit: 2, KindHit: 3, ToolHit: 4, ConsumableHit: 5}

func rankOf(kind Kind, place int) int64 { return section[kind]<<32 | int64(place) }

func (b *builder) add(place int, e entry) {
	id := int32(len(b.ix.entries))
	e.behind, e.rank = behind[e.kind], rankOf(e.kind, place)
	e.eachPhrase(func(p int32) {
		entries := b.ix.phrases[p].entries
		if n := len(entries); n == 0 || entries[n-1] != id {
			b.ix.phrases[p].entries = append(entries, id)
		}
	})
	b.ix.entries = append(b.ix.entries, e)
	b.entryOf[thing{e.kind, e.id}] = id
}

// drop takes an entry out. Its phrases stay, and are found no more if nothing else has
// them.
func (b *builder) drop(kind Kind, id string) {
	e, is := b.entryOf[thing{kind, id}]
	if !is {
		return
	}
	delete(b.entryOf, thing{kind, id})
	b.ix.entries[e].eachPhrase(func(p int32) {
		ph := &b.ix.phrases[p]
		if at, has := slices.BinarySearch(ph.entries, e); has {
			ph.entries = slices.Delete(ph.entries, at, at+1)
		}
	})
	b.ix.entries[e] = entry{}
}

func (e *entry) eachPhrase(do func(p int32)) {
	for _, p := range e.phrases {
		do(p)
	}
	for _, place := range e.places {
		for _, p := range place.phrases {
			do(p)
		}
	}
}
