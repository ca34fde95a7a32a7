package lookup

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// count notes that there is one more part of a kind and from a donor, or one less.
func (b *builder) count(p *fieldkit.Part, by int) {
	b.ofKind[p.Kind] += by
	b.fromDonor[p.Donor] += by
}

func (b *builder) catalog() {
	for _, k := range b.cat.PartKinds {
		list := b.share(fieldKindName, k.Name)
		for _, s := range k.Synonyms {
			list = append(list, b.share(fieldSynonym, s)...)
		}
		b.kindPhrases[k.ID] = list
	}
}

func (b *builder) donors() {
	for i, d := range b.kit.Donors {
		b.donor(i, d)
	}
}

func (b *builder) donor(place int, d fieldkit.Donor) {
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
	sub := []string{}
	if d.Axle != "" {
		sub = append(sub, d.Axle)
	}
	b.add(place, entry{kind: DonorHit, id: d.ID, title: d.Title(), donor: d.ID, phrases: own,
		sub: strings.Join(append(sub, count(b.fromDonor[d.ID], "part")+" from it"), " · ")})
}

// at gives where a position is in words, and the phrases for what is around it.
func (b *builder) at(p *fieldkit.Position) (where string, around []int32) {
	system, _ := b.kit.System(p.System)
	rig, _ := b.kit.Rig(system.Rig)
	where = system.Name
	if len(b.kit.Rigs) > 1 && rig.Name != "" {
		where = rig.Name + ", " + where
	}
	parent, _ := b.kit.Position(p.Parent)
	around = append(b.share(fieldPlace, system.Name), b.share(fieldPlace, string(p.Side))...)
	around = append(around, b.share(fieldPlace, parent.Name)...)
	return where, append(around, b.share(fieldPlace, rig.Name)...)
}

// position adds one without a part: else the part carries it.
func (b *builder) position(place int, p *fieldkit.Position) {
	if _, known := b.kit.Part(p.Part); known {
		return
	}
	where, phrases := b.at(p)
	phrases = append(phrases, b.share(fieldName, p.Name)...)
	b.add(place, entry{kind: PositionHit, id: p.ID, title: p.Title(), sub: where + " · part not yet known", phrases: append(phrases, b.kindPhrases[p.Kind]...)})
}

func (b *builder) part(rank int, p *fieldkit.Part) {
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
	stock := 0
	for _, s := range b.kit.SparesOf(p.ID) {
		stock += s.Count
		if s.Count > 0 {
			phrases = append(phrases, b.share(fieldStowed, strings.TrimSuffix("spare, "+b.binName(s.Bin), ", "))...)
		}
	}
	var places []place
	for _, at := range b.kit.FittedAt(p.ID) {
		where, around := b.at(&at)
		places = append(places, place{at.ID, where + ": " + at.Title(), append(around, b.share(fieldPlace, at.Name)...)})
	}
	title := p.Name
	if title == "" {
		kind, _ := b.cat.PartKind(p.Kind)
		title = kind.Name
	}
	b.add(rank, entry{kind: PartHit, id: p.ID, title: title, sub: standing(places, stock), donor: p.Donor, phrases: phrases, places: places})
}

func (b *builder) binName(id string) string {
	bin, _ := fieldkit.Find(b.kit.Bins, id)
	return bin.Name
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
func standing(places []place, stock int) string {
	where := "not fitted"
	if len(places) > 0 {
		where = places[0].title
		if more := len(places) - 1; more > 0 {
			where += " and " + count(more, "more place")
		}
	}
	if stock > 0 {
		return fmt.Sprintf("%s · %d in stock", where, stock)
	}
	return where + " · none in stock"
}

func (b *builder) kind(i int) {
	k := b.cat.PartKinds[i]
	phrases := b.share(fieldName, k.Name)
	for _, s := range k.Synonyms {
		phrases = append(phrases, b.share(fieldSynonym, s)...)
	}
	sub := "kind of part, " + count(b.ofKind[k.ID], "part") + " in this kit"
	b.add(i, entry{kind: KindHit, id: k.ID, title: k.Name, sub: sub, phrases: append(phrases, b.share(fieldPlace, k.System)...)})
}

func (b *builder) tools() {
	for i, t := range b.kit.Tools {
		kind, _ := b.cat.Tool(t.Kind)
		phrases := append(b.share(fieldName, t.Name), b.share(fieldKindName, kind.Name)...)
		sub := "not owned"
		if t.Owned {
			sub = strings.TrimSuffix("owned, "+b.binName(t.Bin), ", ")
		}
		b.add(i, entry{kind: ToolHit, id: t.ID, title: t.Name, sub: sub, phrases: append(phrases, b.share(fieldStowed, b.binName(t.Bin))...)})
	}
	for i, c := range b.kit.Consumables {
		kind, _ := b.cat.Consumable(c.Kind)
		phrases := append(b.share(fieldName, c.Name), b.share(fieldKindName, kind.Name)...)
		phrases = append(phrases, b.share(fieldDonor, kind.Grade)...)
		sub := fmt.Sprintf("%d × %s", c.Count, c.Size.Both(fieldkit.Metric))
		if c.Size.IsZero() {
			sub = count(c.Count, "pack")
		}
		if bin := b.binName(c.Bin); bin != "" {
			sub += ", " + bin
		}
		b.add(i, entry{kind: ConsumableHit, id: c.ID, title: c.Name, sub: sub, phrases: append(phrases, b.share(fieldStowed, b.binName(c.Bin))...)})
	}
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
