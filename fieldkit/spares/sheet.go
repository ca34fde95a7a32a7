package spares

import (
	"cmp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Sheet is a packing list as it stands: what goes into which bin, what it weighs
// together, what is still to buy and which limits it breaks.
type Sheet struct {
	Trip   fieldkit.Trip
	Bins   []BinSheet // rig by rig in their order, each with what it carries in no bin; last what no rig carries yet, if any
	Rigs   []RigSheet // that go, in their order
	Totals Totals
}

// RigSheet is what one rig carries: what is in its bins, and what it carries in none.
type RigSheet struct {
	Rig     fieldkit.Rig
	Carries fieldkit.Carries // at most
	Lines   int
	Ticked  int
	Mass    fieldkit.Mass
	Volume  fieldkit.Volume
	Typical Typical
}

// BinSheet is what goes into one bin.
type BinSheet struct {
	Bin    fieldkit.Bin // the zero Bin holds what is in none
	RigID  string       // none for what no rig carries yet
	Rig    string       // name
	Rows   []Row
	Mass   fieldkit.Mass
	Volume fieldkit.Volume
	Ticked int // lines packed

	Typical Typical
}

// Row is one line with what is known of it. Mass and Volume are of all its pieces.
type Row struct {
	Line   fieldkit.PackLine
	Name   string
	Mass   fieldkit.Mass
	Volume fieldkit.Volume
	Stock  int             // pieces owned
	Short  int             // pieces to buy
	Cost   *fieldkit.Money // of the pieces to buy; nil where the price is not known

	Typical Typical
}

// Totals sums up a list. Spend is in the currency of the trip's limit, else the
// kit's; lines whose price is not known, or whose weight nobody says, not even the catalog
// of their kind, are counted.
type Totals struct {
	Lines, Ticked int
	Mass          fieldkit.Mass
	Volume        fieldkit.Volume
	Typical       Typical
	TickedMass    fieldkit.Mass
	Spend         fieldkit.Money
	Unpriced      int
	Unweighed     int
	Over          []Over
}

// Over says which limit is broken, and by how much; one of the amounts is set.
type Over struct {
	Bin     string // name of the bin
	Rig     string // name of the rig; the whole list where both are empty
	Mass    fieldkit.Mass
	Volume  fieldkit.Volume
	Money   fieldkit.Money
	Typical bool // some of the weight or space counted is that of its kind
}

// Text says it in words: "1.2 kg (2.6 lb) over the weight limit of drawer, left".
func (o Over) Text(first fieldkit.System) string {
	of := " of the trip"
	if o.Bin+o.Rig != "" {
		of = " of " + o.Bin + o.Rig
	}
	switch {
	case o.Mass > 0:
		return Guess(o.Mass.Both(first), o.Typical) + " over the weight limit" + of
	case o.Volume > 0:
		return Guess(o.Volume.Both(first), o.Typical) + " over the space" + of
	}
	return o.Money.String() + " over the money" + of
}

// SheetOf lays a packing list out by rig and bin and adds it up. Lines in a bin that no
// rig of the trip has count as in no bin.
func SheetOf(kit fieldkit.Kit, cat fieldkit.Catalog, pack fieldkit.Pack) Sheet {
	trip, _ := kit.Trip(pack.Trip)
	s := Sheet{Trip: trip}
	s.Totals.Spend.Currency = currencyOf(kit, trip)
	bins, place := binsOf(kit, trip), map[string]int{} // by bin, and by rig what it carries in none
	carry := func(rigID string) {
		rig, known := kit.Rig(rigID)
		for _, b := range bins {
			if b.Rig == rigID {
				place[b.ID] = len(s.Bins)
				s.Bins = append(s.Bins, BinSheet{Bin: b, RigID: rigID, Rig: rig.Name})
			}
		}
		place["\x00"+rigID] = len(s.Bins)
		s.Bins = append(s.Bins, BinSheet{RigID: rigID, Rig: rig.Name})
		if known {
			s.Rigs = append(s.Rigs, RigSheet{Rig: rig, Carries: trip.CarriesOf(rigID)})
		}
	}
	for i, id := range trip.Rigs {
		if slices.Index(trip.Rigs, id) == i {
			carry(id)
		}
	}
	carry("")
	for _, line := range pack.Lines {
		row, weighed := rowOf(kit, cat, line, s.Totals.Spend.Currency)
		s.Totals.add(row, weighed)
		i, ok := place[line.Bin]
		if !ok {
			if i, ok = place["\x00"+line.Rig]; !ok {
				i = place["\x00"]
			}
		}
		s.Bins[i].add(row)
	}
	s.Bins = slices.DeleteFunc(s.Bins, func(b BinSheet) bool { return b.Bin.ID == "" && len(b.Rows) == 0 })
	for i := range s.Bins {
		order.By(s.Bins[i].Rows, byName)
		for r := range s.Rigs {
			s.Rigs[r].add(s.Bins[i])
		}
	}
	s.Totals.Over = s.overLimits()
	return s
}

func (r *RigSheet) add(b BinSheet) {
	if b.RigID == r.Rig.ID {
		r.Lines, r.Ticked = r.Lines+len(b.Rows), r.Ticked+b.Ticked
		r.Mass, r.Volume = plus(r.Mass, b.Mass), plus(r.Volume, b.Volume)
		r.Typical.add(b.Typical)
	}
}

// byName sorts rows as a person looks for them: capitals make no difference.
func byName(a, b Row) int {
	return cmp.Or(
		strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)),
		RefOf(a.Line).compare(RefOf(b.Line)),
	)
}

func rowOf(kit fieldkit.Kit, cat fieldkit.Catalog, line fieldkit.PackLine, currency string) (r Row, weighed bool) {
	a := articleOf(kit, cat, RefOf(line))
	r = Row{
		Line: line, Name: a.name, Stock: a.stock, Short: a.short(line.Count),
		Mass: times(a.mass, line.Count), Volume: times(a.volume, line.Count), Typical: a.guess,
	}
	if m, ok := a.cost(r.Short, currency); ok {
		r.Cost = &m
	}
	return r, a.mass > 0
}

func (t *Totals) add(r Row, weighed bool) {
	t.Lines++
	t.Mass, t.Volume = plus(t.Mass, r.Mass), plus(t.Volume, r.Volume)
	t.Typical.add(r.Typical)
	if r.Line.Packed {
		t.Ticked++
		t.TickedMass = plus(t.TickedMass, r.Mass)
	}
	if r.Cost != nil {
		t.Spend.Cents = plus(t.Spend.Cents, r.Cost.Cents)
	} else {
		t.Unpriced++
	}
	if !weighed {
		t.Unweighed++
	}
}

func (b *BinSheet) add(r Row) {
	b.Rows = append(b.Rows, r)
	b.Mass, b.Volume = plus(b.Mass, r.Mass), plus(b.Volume, r.Volume)
	b.Typical.add(r.Typical)
	if r.Line.Packed {
		b.Ticked++
	}
}

// overLimits lists the limits broken: those of the trip first, then rig by rig and bin
// by bin.
func (s Sheet) overLimits() (over []Over) {
	check := func(bin, rig string, mass, massLimit fieldkit.Mass, volume, volumeLimit fieldkit.Volume, typical Typical) {
		if massLimit > 0 && mass > massLimit {
			over = append(over, Over{Bin: bin, Rig: rig, Mass: mass - massLimit, Typical: typical.Mass})
		}
		if volumeLimit > 0 && volume > volumeLimit {
			over = append(over, Over{Bin: bin, Rig: rig, Volume: volume - volumeLimit, Typical: typical.Volume})
		}
	}
	limits, t := s.Trip.Limits, s.Totals
	check("", "", t.Mass, limits.Mass, t.Volume, limits.Volume, t.Typical)
	if limits.Money != nil && t.Spend.Cents > limits.Money.Cents {
		over = append(over, Over{Money: fieldkit.Money{Cents: t.Spend.Cents - limits.Money.Cents, Currency: t.Spend.Currency}})
	}
	for _, r := range s.Rigs {
		check("", r.Rig.Name, r.Mass, r.Carries.Mass, r.Volume, r.Carries.Volume, r.Typical)
	}
	for _, b := range s.Bins {
		check(b.Bin.Name, "", b.Mass, b.Bin.MassLimit, b.Volume, b.Bin.VolumeLimit, b.Typical)
	}
	return over
}

// currencyOf is the currency a trip's shopping is added up in.
func currencyOf(kit fieldkit.Kit, trip fieldkit.Trip) string {
	if trip.Limits.Money != nil {
		return trip.Limits.Money.Currency
	}
	return kit.Currency
}

// binsOf returns the bins of the rigs that go: rig by rig, each in its order.
func binsOf(kit fieldkit.Kit, trip fieldkit.Trip) []fieldkit.Bin {
	var bins []fieldkit.Bin
	for _, b := range kit.Bins {
		if slices.Contains(trip.Rigs, b.Rig) {
			bins = append(bins, b)
		}
	}
	order.By(bins, func(a, b fieldkit.Bin) int {
		return cmp.Or(
			slices.Index(trip.Rigs, a.Rig)-slices.Index(trip.Rigs, b.Rig),
			cmp.Compare(a.Order, b.Order),
			strings.Compare(a.ID, b.ID),
		)
	})
	return bins
}
