package lookuptest

import (
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

// Document is one thing that can be found, as text for a general search library.
type Document struct {
	Title string `json:"title"`
	Text  string `json:"text"`

	id          string
	designation standards.Designation
}

// Answers reports whether a document is an answer to a query.
func (d Document) Answers(q Query) bool {
	if d.designation != nil {
		return q.MeansDesignation(d.designation)
	}
	return q.MeansRecord(d.id)
}

// Corpus writes down a kit, the kinds of part and the tables: what package lookup
// searches, with the same trade names, and sizes in both units.
func Corpus(kit fieldkit.Kit, cat fieldkit.Catalog, book *standards.Handbook, rows []lookup.Row) (docs []Document) {
	add := func(id, title string, d standards.Designation, words ...string) {
		docs = append(docs, Document{title, strings.Join(words, " "), id, d})
	}
	where := map[string][]string{}
	for _, p := range kit.Positions.All() {
		rig, _ := kit.RigOf(p)
		system, _ := fieldkit.Find(kit.Systems, p.System)
		kind, _ := cat.PartKind(p.Kind)
		words := append([]string{p.Title(), system.Name, rig.Name, kind.Name}, kind.Synonyms...)
		if p.Part == "" {
			add(p.ID, p.Title(), nil, words...)
			continue
		}
		where[p.Part] = append(where[p.Part], words...)
	}
	for _, p := range kit.Parts.All() {
		kind, _ := cat.PartKind(p.Kind)
		donor, _ := kit.Donor(p.Donor)
		words := append([]string{kind.Name, donor.Title(), donor.Axle}, kind.Synonyms...)
		for _, n := range p.Numbers {
			words = append(words, n.Value, n.From)
		}
		for _, m := range p.Measurements {
			words = append(words, m.Name, m.Value.Both(fieldkit.Metric))
		}
		add(p.ID, p.Name, nil, append(words, where[p.ID]...)...)
	}
	for _, d := range kit.Donors {
		add(d.ID, d.Title(), nil, d.Axle, d.Note, d.VIN)
	}
	for _, k := range cat.PartKinds {
		add(k.ID, k.Name, nil, append([]string{k.System}, k.Synonyms...)...)
	}
	for _, t := range kit.Tools {
		add(t.ID, t.Name, nil)
	}
	for _, c := range kit.Consumables {
		kind, _ := cat.Consumable(c.Kind)
		add(c.ID, c.Name, nil, kind.Name, kind.Grade)
	}
	for _, kind := range book.Kinds() {
		names := append([]string{string(kind)}, lookup.TradeNames(kind)...)
		for _, d := range book.Listed(kind) {
			add("", d.String(), d, append(strings.Fields(standards.ShortName(d)), append(names, figures(d.Dims())...)...)...)
		}
	}
	for _, r := range rows {
		add(r.ID(), r.Title, nil, append(r.Words, figures(r.Figures)...)...)
	}
	return docs
}

func figures(dims []standards.Dim) (words []string) {
	for _, d := range dims {
		words = append(words, standards.Label(d.Name), d.Value.Both(fieldkit.Metric))
	}
	return words
}
