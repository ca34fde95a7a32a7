package lookup

import (
	"fmt"
	"strconv"
	"strings"
	"sync"

	"trailfieldkit/fieldkit"
)

// Index is a kit and a catalog made ready to be searched. It does not change after
// New and may be used by several goroutines.
type Index struct {
	entries  []entry
	phrases  []phrase
	words    vocabulary
	numbers  numberTable
	measures measureTable
	years    []int32

	published bool // the entries are of tables, not of a kit
	shelf     *Shelf
	bearers   map[string][]int32 // by kind and stem of a designation: the parts that bear it
	pool      sync.Pool          // of *scratch
}

// New makes the index: some milliseconds for a kit of a few hundred parts. With a
// shelf the published tables are searched too; nil leaves them out.
func New(kit fieldkit.Kit, cat fieldkit.Catalog, shelf *Shelf) *Index {
	b := newBuilder(kit)
	b.ix.shelf = shelf
	b.catalog(cat)
	b.stores()
	b.donors()
	b.positions()
	b.parts()
	b.kinds(cat)
	b.tools(cat)
	return b.done()
}

func newBuilder(kit fieldkit.Kit) builder {
	return builder{
		ix: &Index{bearers: map[string][]int32{}}, kit: kit, shared: map[string]int32{}, sizes: map[sized]int32{}, names: map[string][]string{},
		stock: map[string]int{}, stowed: map[string][]int32{}, used: map[string]int{},
	}
}

func (b *builder) done() *Index {
	b.ix.words.sort()
	b.ix.numbers.sort()
	b.ix.measures.sort()
	return b.ix
}

type builder struct {
	ix     *Index
	kit    fieldkit.Kit
	shared map[string]int32 // phrases kept once, by field and text
	sizes  map[sized]int32  // measurements kept once
	names  map[string][]string

	kindPhrases  map[string][]int32
	donorPhrases map[string][]int32
	donorByID    map[string]fieldkit.Donor
	kindByID     map[string]fieldkit.PartKind
	binByID      map[string]fieldkit.Bin
	places       map[string][]place // by part
	stock        map[string]int     // by part
	stowed       map[string][]int32 // by part: where its spares are kept
	used         map[string]int     // parts by kind
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
	key := strconv.Itoa(int(f)) + text
	id, ok := b.shared[key]
	if !ok {
		id = b.phrase(phrase{field: f, text: text})
		b.shared[key] = id
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

func (b *builder) add(e entry) {
	id := int32(len(b.ix.entries))
	e.behind = behind[e.kind]
	own := func(list []int32) {
		for _, p := range list {
			entries := b.ix.phrases[p].entries
			if n := len(entries); n == 0 || entries[n-1] != id {
				b.ix.phrases[p].entries = append(entries, id)
			}
		}
	}
	own(e.phrases)
	for _, place := range e.places {
		own(place.phrases)
	}
	b.ix.entries = append(b.ix.entries, e)
}

func (b *builder) catalog(cat fieldkit.Catalog) {
	b.kindPhrases, b.kindByID = map[string][]int32{}, map[string]fieldkit.PartKind{}
	for _, k := range cat.PartKinds {
		b.kindByID[k.ID] = k
		list := b.share(fieldKindName, k.Name)
		for _, s := range k.Synonyms {
			list = append(list, b.share(fieldSynonym, s)...)
		}
		b.kindPhrases[k.ID] = list
	}
}

func (b *builder) stores() {
	b.binByID = map[string]fieldkit.Bin{}
	for _, bin := range b.kit.Bins {
		b.binByID[bin.ID] = bin
	}
	for _, s := range b.kit.Spares.All() {
		b.stock[s.Part] += s.Count
		if s.Count > 0 {
			kept := strings.TrimSuffix("spare, "+b.binByID[s.Bin].Name, ", ")
			b.stowed[s.Part] = append(b.stowed[s.Part], b.share(fieldStowed, kept)...)
		}
	}
}

func (b *builder) donors() {
	b.donorPhrases, b.donorByID = map[string][]int32{}, map[string]fieldkit.Donor{}
	for _, d := range b.kit.Donors {
		b.donorByID[d.ID] = d
		var list []int32
		if d.YearFrom != 0 || d.YearTo != 0 {
			list = append(list, b.phrase(phrase{field: fieldYears, text: d.Title(), from: d.YearFrom, to: max(d.YearTo, d.YearFrom)}))
		}
		own := append([]int32{b.phrase(phrase{field: fieldName, text: d.Title()})}, list...)
		list = append(list, b.share(fieldDonor, d.Title())...)
		for _, more := range []string{d.Axle, d.Note} {
			own = append(own, b.share(fieldDonor, more)...)
		}
		list = append(list, b.share(fieldDonor, d.Axle)...)
		if d.VIN != "" {
			own = append(own, b.phrase(phrase{field: fieldNumber, text: d.VIN, of: "VIN"}))
		}
		b.donorPhrases[d.ID] = list
		parts := 0
		for _, p := range b.kit.Parts.All() {
			if p.Donor == d.ID {
				parts++
			}
		}
		sub := []string{}
		if d.Axle != "" {
			sub = append(sub, d.Axle)
		}
		b.add(entry{kind: DonorHit, id: d.ID, title: d.Title(), donor: d.ID, phrases: own,
			sub: strings.Join(append(sub, count(parts, "part")+" from it"), " · ")})
	}
}

// positions gathers the places of the parts and adds the positions without one.
func (b *builder) positions() {
	b.places = map[string][]place{}
	systems, rigs, names := map[string]fieldkit.Assembly{}, map[string]fieldkit.Rig{}, map[string]string{}
	for _, s := range b.kit.Systems {
		systems[s.ID] = s
	}
	for _, r := range b.kit.Rigs {
		rigs[r.ID] = r
	}
	for _, p := range b.kit.Positions.All() {
		names[p.ID] = p.Name
	}
	known := map[string]bool{}
	for _, p := range b.kit.Parts.All() {
		known[p.ID] = true
	}
	for _, p := range b.kit.Positions.All() {
		system := systems[p.System]
		rig := rigs[system.Rig].Name
		where := system.Name
		if len(b.kit.Rigs) > 1 && rig != "" {
			where = rig + ", " + where
		}
		around := append(b.share(fieldPlace, system.Name), b.share(fieldPlace, string(p.Side))...)
		around = append(around, b.share(fieldPlace, names[p.Parent])...)
		around = append(around, b.share(fieldPlace, rig)...)
		if known[p.Part] {
			b.places[p.Part] = append(b.places[p.Part], place{p.ID, where + ": " + p.Title(), append(around, b.share(fieldPlace, p.Name)...)})
			continue
		}
		around = append(around, b.share(fieldName, p.Name)...)
		b.add(entry{kind: PositionHit, id: p.ID, title: p.Title(), sub: where + " · part not yet known", phrases: append(around, b.kindPhrases[p.Kind]...)})
	}
}

func (b *builder) parts() {
	for _, p := range b.kit.Parts.All() {
		b.used[p.Kind]++
		phrases := b.share(fieldName, p.Name)
		for _, n := range p.Numbers {
			phrases = append(phrases, b.number(n)...)
			if n.Issuer == fieldkit.StandardNumber && b.ix.shelf != nil {
				b.bears(n.Value)
			}
		}
		for _, m := range p.Measurements {
			phrases = append(phrases, b.measure(m.Name, m.Value, false))
			phrases = append(phrases, b.share(fieldAttribute, m.Name)...)
			if m.Value.Dim == fieldkit.DimText {
				phrases = append(phrases, b.share(fieldAttribute, m.Name+" "+m.Value.Text)...)
			}
		}
		phrases = append(phrases, b.kindPhrases[p.Kind]...)
		phrases = append(phrases, b.donorPhrases[p.Donor]...)
		phrases = append(phrases, b.stowed[p.ID]...)
		title := p.Name
		if title == "" {
			title = b.kindByID[p.Kind].Name
		}
		b.add(entry{kind: PartHit, id: p.ID, title: title, sub: b.standing(p), donor: p.Donor, phrases: phrases, places: b.places[p.ID]})
	}
}

// bears notes what the part that is added next bears.
func (b *builder) bears(number string) {
	id := int32(len(b.ix.entries))
	for _, key := range b.ix.shelf.named(number) {
		if list := b.ix.bearers[key]; len(list) == 0 || list[len(list)-1] != id {
			b.ix.bearers[key] = append(list, id)
		}
	}
}

// minHalf is the shortest half of a designation that is searched for by itself; "2"
// of "1/2" says nothing.
const minHalf = 4

func (b *builder) number(n fieldkit.Number) (list []int32) {
	f := fieldNumber
	if n.Issuer == fieldkit.StandardNumber {
		f = fieldDesignation
		if halves := strings.Split(n.Value, "/"); len(halves) == 2 {
			for _, half := range halves {
				if len(foldNumber(half)) >= minHalf {
					list = append(list, b.phrase(phrase{field: fieldHalf, text: strings.TrimSpace(half), of: n.Value}))
				}
			}
		}
	}
	list = append(list, b.phrase(phrase{field: f, text: n.Value, of: n.From}))
	return append(list, b.share(fieldIssuer, n.From)...)
}

// standing says in one line where a part is fitted and how many are in stock.
func (b *builder) standing(p fieldkit.Part) string {
	where := "not fitted"
	if places := b.places[p.ID]; len(places) > 0 {
		where = places[0].title
		if more := len(places) - 1; more > 0 {
			where += " and " + count(more, "more place")
		}
	}
	if n := b.stock[p.ID]; n > 0 {
		return fmt.Sprintf("%s · %d in stock", where, n)
	}
	return where + " · none in stock"
}

func (b *builder) kinds(cat fieldkit.Catalog) {
	for _, k := range cat.PartKinds {
		phrases := b.share(fieldName, k.Name)
		for _, s := range k.Synonyms {
			phrases = append(phrases, b.share(fieldSynonym, s)...)
		}
		sub := "kind of part, " + count(b.used[k.ID], "part") + " in this kit"
		b.add(entry{kind: KindHit, id: k.ID, title: k.Name, sub: sub, phrases: append(phrases, b.share(fieldPlace, k.System)...)})
	}
}

func (b *builder) tools(cat fieldkit.Catalog) {
	for _, t := range b.kit.Tools {
		kind, _ := cat.Tool(t.Kind)
		phrases := append(b.share(fieldName, t.Name), b.share(fieldKindName, kind.Name)...)
		sub := "not owned"
		if t.Owned {
			sub = strings.TrimSuffix("owned, "+b.binByID[t.Bin].Name, ", ")
		}
		b.add(entry{kind: ToolHit, id: t.ID, title: t.Name, sub: sub, phrases: append(phrases, b.share(fieldStowed, b.binByID[t.Bin].Name)...)})
	}
	for _, c := range b.kit.Consumables {
		kind, _ := cat.Consumable(c.Kind)
		phrases := append(b.share(fieldName, c.Name), b.share(fieldKindName, kind.Name)...)
		phrases = append(phrases, b.share(fieldDonor, kind.Grade)...)
		sub := fmt.Sprintf("%d × %s", c.Count, c.Size.Both(fieldkit.Metric))
		if c.Size.IsZero() {
			sub = count(c.Count, "pack")
		}
		if bin := b.binByID[c.Bin].Name; bin != "" {
			sub += ", " + bin
		}
		b.add(entry{kind: ConsumableHit, id: c.ID, title: c.Name, sub: sub, phrases: append(phrases, b.share(fieldStowed, b.binByID[c.Bin].Name)...)})
	}
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
