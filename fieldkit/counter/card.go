package counter

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// Card is what to show across a counter to get one part.
type Card struct {
	Title      string
	PartID     string // none if the part is not known
	Kind       string // ID of its kind, none if that is not known
	Places     []Place
	Ask        string // the kind in trade words and where it goes
	Donor      string // the vehicle to name; none if not known
	DonorNote  string // what tells its variants apart
	NotFor     string // "not for the 1984 Umberlow Hobnail outside"
	Numbers    []Number
	Checks     []Check
	BuyWith    []string
	StandIns   []StandInLine
	Stores     []StoreHint // the likeliest first
	LookAlikes []fieldkit.LookAlike
	DoesNotFit []Refusal
	Cautions   []string
	Missing    []string // what is not known, said plainly
}

// Place is a position the card is for.
type Place struct {
	ID    string
	Title string // "front axle: outer bearing, left"
	Proof string // how it is known that the part sits there
}

// Check is a measurement that decides, to tick against the part in hand.
type Check struct {
	Name     string
	Value    fieldkit.Value
	Measured bool   // else it is not known
	Worn     bool   // measured on a worn part: the new one may differ
	How      string // how to measure it
	Taken    string // how and when this value was
	Must     bool
	Why      string // what goes wrong if it differs
}

// Refusal is a part that is recorded not to fit.
type Refusal struct {
	Part    string // ID
	Name    string
	Numbers []string
	Why     string // evidence and note
	Yet     string // a chain that says it fits all the same: one of the two is wrong
}

// CardFor makes the card for a part, for a position, or for a part at a position;
// either ID may be empty, not both. A position without a known part gives a card made
// from its kind that says what is missing. The error, of kind NotFound, names an ID
// that the kit does not hold.
func CardFor(kit fieldkit.Kit, cat fieldkit.Catalog, graph *interchange.Graph, part, position string) (Card, error) {
	l := openLedger(kit, cat)
	at, placed := l.kit.Position(position)
	if !placed && (position != "" || part == "") {
		return Card{}, notFound("position", position)
	}
	if part == "" {
		part = at.Part
		if _, ok := l.kit.Part(part); !ok {
			part = ""
		}
	}
	p, known := l.kit.Part(part)
	if !known && part != "" {
		return Card{}, notFound("part", part)
	}
	return l.card(p, known, at, placed, graph), nil
}

func notFound(what, id string) *fieldkit.Error {
	return &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("the kit has no %s %q", what, id), Do: "choose one from the list, it may have been deleted"}
}

func (l *ledger) card(p fieldkit.Part, known bool, at fieldkit.Position, placed bool, graph *interchange.Graph) Card {
	kind := l.kindOf(p, at)
	c := Card{PartID: p.ID, Kind: kind.ID, Title: orElse(kind.Name, at.Title())}
	if known {
		c.Title = l.partName(p.ID)
	}
	places := l.placesFor(p, known, at, placed)
	for _, q := range places {
		c.Places = append(c.Places, Place{q.ID, l.placeTitle(q, places), l.sits(p, q)})
	}
	c.Ask = ask(kind, c.Title, l.placesInWords(places))
	c.donor(l, p, places)
	c.Numbers = numbersOf(p)
	c.Checks = checksOf(p, kind)
	c.BuyWith = merge(kind.BuyWith, p.BuyWith)
	c.Stores = l.storesFor(kind)
	c.LookAlikes = p.LookAlikes
	if known {
		c.StandIns = l.standIns(p, graph)
		c.DoesNotFit = l.refusals(p, graph)
	}
	c.cautions(l, p, known, kind, at, placed)
	c.missing(l, p, known, at)
	return c
}

// placesFor gives the positions a card speaks of: the one asked for and those of the
// same rig where the same part sits; without one, all where the part sits.
func (l *ledger) placesFor(p fieldkit.Part, known bool, at fieldkit.Position, placed bool) (list []fieldkit.Position) {
	if !placed {
		return l.kit.FittedAt(p.ID)
	}
	if !known || at.Part != p.ID {
		return []fieldkit.Position{at}
	}
	for _, q := range l.kit.FittedAt(p.ID) {
		if l.rigOf(q).ID == l.rigOf(at).ID {
			list = append(list, q)
		}
	}
	return list
}

// placeTitle names a position with its system, and with its rig if the places are on
// several.
func (l *ledger) placeTitle(p fieldkit.Position, among []fieldkit.Position) string {
	title := strings.TrimPrefix(l.systems[p.System].Name+": "+p.Title(), ": ")
	rig := l.rigOf(p)
	if slices.ContainsFunc(among, func(q fieldkit.Position) bool { return l.rigOf(q).ID != rig.ID }) {
		title = strings.TrimPrefix(rig.Name+", "+title, ", ")
	}
	return title
}

// sits tells how it is known that the part sits at a position; nothing if another
// part does.
func (l *ledger) sits(p fieldkit.Part, at fieldkit.Position) string {
	if p.ID == "" || at.Part != p.ID {
		return ""
	}
	return proofWords(at.Proof)
}

// placesInWords names positions in few words, both sides of one in one.
func (l *ledger) placesInWords(places []fieldkit.Position) string {
	text := ""
	for _, p := range places {
		if title := l.placeTitle(p, places); text == "" {
			text = title
		} else {
			text = joinTitles(text, title)
		}
	}
	return text
}

// synonymsSaid is how many trade names are said: the first are the best known.
const synonymsSaid = 2

func ask(kind fieldkit.PartKind, title, places string) string {
	text := orElse(kind.Name, title)
	if n := min(len(kind.Synonyms), synonymsSaid); n > 0 {
		text += ", also called " + strings.Join(kind.Synonyms[:n], " or ")
	}
	if places != "" {
		text += "; goes in " + places
	}
	return text
}

// donor says which vehicle to name and which not.
func (c *Card) donor(l *ledger, p fieldkit.Part, places []fieldkit.Position) {
	d, ok := l.donors[p.Donor]
	if !ok {
		return
	}
	c.Donor = d.Title()
	note := []string{}
	for _, s := range []string{d.Axle, d.Note} {
		if s != "" {
			note = append(note, s)
		}
	}
	if d.VIN != "" {
		note = append(note, "VIN "+d.VIN)
	}
	c.DonorNote = strings.Join(note, "; ")
	var outside []string
	for _, q := range places {
		papers := l.rigOf(q).Registration
		if papers != "" && !isDonor(papers, d) && !slices.Contains(outside, papers) {
			outside = append(outside, papers)
		}
	}
	if len(outside) > 0 {
		c.NotFor = "not for the " + strings.Join(outside, " or the ") + " outside"
	}
}

// isDonor reports whether the papers name the donor itself: then they are no wrong
// thing to ask for.
func isDonor(papers string, d fieldkit.Donor) bool {
	folded := " " + strings.ToLower(papers) + " "
	has := func(words string) bool { return strings.Contains(folded, " "+strings.ToLower(words)+" ") }
	return has(d.Make) && has(d.Model)
}

// checksOf lists what decides, in the order of the kind, then what else was measured.
func checksOf(p fieldkit.Part, kind fieldkit.PartKind) (list []Check) {
	names := []string{}
	for _, d := range kind.Deciding {
		c := Check{Name: d.Name, How: d.How, Must: d.Must, Why: d.Why}
		if m, ok := reading(p, d.Name); ok {
			c.Value, c.Measured, c.Worn, c.Taken = m.Value, true, m.Worn, taken(m)
		}
		list, names = append(list, c), append(names, d.Name)
	}
	for _, m := range p.Measurements {
		if slices.ContainsFunc(names, func(name string) bool { return sameName(name, m.Name) }) {
			continue
		}
		names = append(names, m.Name)
		if best, ok := reading(p, m.Name); ok {
			list = append(list, Check{Name: best.Name, Value: best.Value, Measured: true, Worn: best.Worn, Taken: taken(best)})
		}
	}
	return list
}

func taken(m fieldkit.Measurement) string {
	words := []string{}
	if m.How != "" {
		words = append(words, m.How)
	}
	if !m.On.IsZero() {
		words = append(words, m.On.Show())
	}
	return strings.Join(words, ", ")
}

// merge appends what is not yet listed.
func merge(list, more []string) []string {
	list = slices.Clone(list)
	for _, s := range more {
		if !slices.ContainsFunc(list, func(have string) bool { return strings.EqualFold(have, s) }) {
			list = append(list, s)
		}
	}
	return list
}

// cautions puts first what can hurt, then what can mislead.
func (c *Card) cautions(l *ledger, p fieldkit.Part, known bool, kind fieldkit.PartKind, at fieldkit.Position, placed bool) {
	if kind.Caution != "" {
		c.Cautions = append(c.Cautions, kind.Caution)
	}
	if placed && known && at.Part != p.ID {
		now := "not known"
		if _, ok := l.kit.Part(at.Part); ok {
			now = l.partName(at.Part)
		}
		c.Cautions = append(c.Cautions, fmt.Sprintf("This is not what sits at %s now; that is %s.", l.placeTitle(at, nil), now))
	}
	for _, check := range c.Checks {
		if check.Worn {
			c.Cautions = append(c.Cautions, fmt.Sprintf("The %s was taken on a worn part; a new one may measure more or less.", check.Name))
		}
	}
}

// missing says what is not known, in the words of the gaps, plus what a person at the
// counter would ask for first.
func (c *Card) missing(l *ledger, p fieldkit.Part, known bool, at fieldkit.Position) {
	if !known {
		c.Missing = append(c.Missing, "Which part is fitted is not known: take the old one along.")
	}
	if _, ok := l.donors[p.Donor]; !ok {
		text := "The donor is not known: ask by number and measure."
		if papers := l.rigOf(at).Registration; papers != "" {
			text = fmt.Sprintf("The donor is not known: ask by number and measure, and do not trust the papers (%s).", papers)
		}
		c.Missing = append(c.Missing, text)
	}
	if known && len(spoken(p)) == 0 {
		c.Missing = append(c.Missing, "No part number is known.")
	}
	if n, ok := unproven(p); ok && !hasProven(p) {
		c.Missing = append(c.Missing, fmt.Sprintf("Number %s is not proven: %s.", n.Value, proofOfNumber(n)))
	}
	if at.Part == p.ID && known && at.Proof != nil && at.Proof.How == fieldkit.Hearsay {
		c.Missing = append(c.Missing, "That this part sits there is only hearsay.")
	}
	var unmeasured []string
	for _, check := range c.Checks {
		if check.Must && !check.Measured {
			unmeasured = append(unmeasured, check.Name)
		}
	}
	if len(unmeasured) > 0 {
		c.Missing = append(c.Missing, "Not measured: "+strings.Join(unmeasured, ", ")+".")
	}
}
