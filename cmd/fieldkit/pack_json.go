package main

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

// packed is what pack prints as JSON. Hours are numbers of hours.
type packed struct {
	Trip     packedTrip   `json:"trip"`
	Value    float64      `json:"value"`
	Bound    float64      `json:"bound"`
	Proved   bool         `json:"proved"`
	Without  float64      `json:"lostWithout"`
	With     float64      `json:"lostWith"`
	Lines    []packedLine `json:"lines"`
	Bins     []packedBin  `json:"bins"`
	Totals   packedTotals `json:"totals"`
	Rigs     []packedHold `json:"rigs"`
	Friends  []packedLent `json:"friends"`
	Home     packedHome   `json:"home"`
	Shopping []packedNeed `json:"shopping"`
	LeftOut  []packedLeft `json:"leftOut"`
	Notes    []string     `json:"notes"`
}

type packedTrip struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

type packedLine struct {
	Type     string        `json:"type"`
	ID       string        `json:"id"`
	Name     string        `json:"name"`
	Count    int           `json:"count"`
	Bin      string        `json:"bin,omitempty"`
	Rig      string        `json:"rig,omitempty"`
	Mass     amount        `json:"mass"`
	Volume   amount        `json:"volume"`
	Typical  bool          `json:"typical,omitempty"` // of its kind: weight, space or both were not given
	Stock    int           `json:"stock"`
	Buy      int           `json:"buy"`
	Pinned   bool          `json:"pinned,omitempty"`
	Packed   bool          `json:"packed,omitempty"`
	Uses     float64       `json:"uses"`
	Saves    float64       `json:"saves"`
	Share    float64       `json:"share"`
	Guessed  bool          `json:"guessed"`
	Again    *packedDrop   `json:"again,omitempty"`
	Why      string        `json:"why"`
	Evidence string        `json:"evidence,omitempty"`
	Repairs  []string      `json:"repairs,omitempty"`
	Covers   []packedCover `json:"covers,omitempty"`
}

type packedCover struct {
	Position     string   `json:"position"`
	Title        string   `json:"title"`
	Rig          string   `json:"rig"`
	Fitted       string   `json:"fitted"`
	Grade        string   `json:"grade"`
	Changes      []string `json:"changes,omitempty"`
	Proven       string   `json:"proven,omitempty"` // none for the part itself
	Worth        float64  `json:"worth"`
	Expected     float64  `json:"expected"`
	Probability  float64  `json:"probability"`
	Evidence     string   `json:"evidence"`
	Uses         float64  `json:"uses"`
	HoursWithout float64  `json:"hoursWithout"`
	HoursWith    float64  `json:"hoursWith"`
	Town         string   `json:"town,omitempty"`
}

// packedHold is what a bin or a rig holds, against its limits if it has any.
type packedHold struct {
	ID          string   `json:"id"` // of a bin none for what lies loose
	Name        string   `json:"name"`
	Mass        amount   `json:"mass"`
	MassLimit   *amount  `json:"massLimit,omitempty"`
	Volume      amount   `json:"volume"`
	VolumeLimit *amount  `json:"volumeLimit,omitempty"`
	Lines       []string `json:"lines"`
}

func (h *packedHold) limits(mass fieldkit.Mass, volume fieldkit.Volume) {
	if mass > 0 {
		limit := massOf(mass)
		h.MassLimit = &limit
	}
	if volume > 0 {
		limit := volumeOf(volume)
		h.VolumeLimit = &limit
	}
}

type packedBin struct {
	packedHold
	Rig string `json:"rig,omitempty"`
}

type packedDrop struct {
	Costs  float64 `json:"costs"`
	Most   float64 `json:"most"`
	Proved bool    `json:"proved"`
}

type packedLent struct {
	Type    string  `json:"type"`
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	Count   int     `json:"count"`
	Who     string  `json:"who,omitempty"`
	Saves   float64 `json:"saves"`
	Share   float64 `json:"share"`
	Guessed bool    `json:"guessed"`
	Why     string  `json:"why"`
}

type packedHome struct {
	Without packedOutcome `json:"without"`
	With    packedOutcome `json:"with"`
}

type packedOutcome struct {
	Probability   float64    `json:"probability"`
	Interval      [2]float64 `json:"interval"`
	Hours         float64    `json:"hours"`
	HoursInterval [2]float64 `json:"hoursInterval"`
}

func packedOutcomeOf(o spares.Outcome) packedOutcome {
	return packedOutcome{
		figure(o.Home), [2]float64{figure(o.HomeWithin[0]), figure(o.HomeWithin[1])},
		figure(o.Lost), [2]float64{figure(o.LostWithin[0]), figure(o.LostWithin[1])},
	}
}

// packedEntry has one of the three amounts, or none.
type packedEntry struct {
	Mass   *amount `json:"mass,omitempty"`
	Money  *amount `json:"money,omitempty"`
	Volume *amount `json:"volume,omitempty"`
	Costs  float64 `json:"costs"`
	Proved bool    `json:"proved"`
}

func packedEntryOf(e spares.Entry) *packedEntry {
	out := &packedEntry{Costs: figure(e.Costs), Proved: e.Proved}
	mass, volume, money := massOf(e.Mass), volumeOf(e.Volume), moneyOf(e.Money)
	switch {
	case e.Mass > 0:
		out.Mass = &mass
	case e.Volume > 0:
		out.Volume = &volume
	case e.Money.Cents > 0:
		out.Money = &money
	}
	return out
}

func packedRigOf(r spares.RigSheet, bins []spares.BinSheet) packedHold {
	rig := packedHold{ID: r.Rig.ID, Name: r.Rig.Name, Mass: massOf(r.Mass), Volume: volumeOf(r.Volume), Lines: []string{}}
	rig.limits(r.Carries.Mass, r.Carries.Volume)
	for _, b := range bins {
		if b.RigID == r.Rig.ID {
			rig.Lines = append(rig.Lines, packedBinOf(b).Lines...)
		}
	}
	return rig
}

type packedTotals struct {
	Lines     int      `json:"lines"`
	Mass      amount   `json:"mass"`
	Volume    amount   `json:"volume"`
	Spend     amount   `json:"spend"`
	Unpriced  int      `json:"unpriced"`
	Unweighed int      `json:"unweighed"`
	Over      []string `json:"over"`
}

type packedNeed struct {
	Type   string   `json:"type"`
	ID     string   `json:"id"`
	Name   string   `json:"name"`
	For    string   `json:"for,omitempty"`
	Count  int      `json:"count"`
	Stock  int      `json:"stock"`
	Cost   *amount  `json:"cost,omitempty"`
	Stores []string `json:"stores"`
}

type packedLeft struct {
	Type  string       `json:"type"`
	ID    string       `json:"id"`
	Name  string       `json:"name"`
	Adds  float64      `json:"adds"`
	Why   string       `json:"why"`
	Needs []string     `json:"needs,omitempty"`
	Entry *packedEntry `json:"entry,omitempty"`
}

func packAsJSON(kit fieldkit.Kit, trip fieldkit.Trip, p weighing) packed {
	out := packed{
		Trip: packedTrip{trip.ID, trip.Name}, Value: figure(p.Value), Bound: figure(p.Bound), Proved: p.Proved, Without: figure(p.Bare), With: figure(p.Left),
		Lines: []packedLine{}, Bins: []packedBin{}, Shopping: []packedNeed{}, LeftOut: []packedLeft{}, Notes: list(p.Notes),
		Rigs: []packedHold{}, Friends: []packedLent{}, Home: packedHome{packedOutcomeOf(p.without), packedOutcomeOf(p.with)},
	}
	for i, l := range p.Lines {
		line := packedLineOf(l)
		if b, ok := fieldkit.Find(kit.Bins, l.Line.Bin); ok {
			line.Rig = b.Rig
		}
		if p.drops != nil {
			d := p.drops[i]
			line.Again = &packedDrop{figure(d.Costs), figure(d.Most), d.Proved}
		}
		out.Lines = append(out.Lines, line)
	}
	for _, r := range p.Sheet.Rigs {
		out.Rigs = append(out.Rigs, packedRigOf(r, p.Sheet.Bins))
	}
	for _, l := range p.Friends {
		out.Friends = append(out.Friends, packedLent{string(l.Line.Type), l.Line.Item, l.Name, l.Line.Count, l.Who, figure(l.Saves), figure(l.Share), l.Guessed, l.Line.Why})
	}
	for _, b := range p.Sheet.Bins {
		out.Bins = append(out.Bins, packedBinOf(b))
	}
	t := p.Sheet.Totals
	out.Totals = packedTotals{
		t.Lines, massOf(t.Mass), volumeOf(t.Volume), moneyOf(t.Spend), t.Unpriced, t.Unweighed, []string{},
	}
	for _, o := range t.Over {
		out.Totals.Over = append(out.Totals.Over, o.Text(fieldkit.Metric))
	}
	for _, n := range p.Shopping {
		need := packedNeed{string(n.Ref.Type), n.Ref.Item, n.Name, n.For, n.Count, n.Stock, nil, list(n.Stores)}
		if n.Cost != nil {
			cost := moneyOf(*n.Cost)
			need.Cost = &cost
		}
		out.Shopping = append(out.Shopping, need)
	}
	for i, l := range p.LeftOut {
		left := packedLeft{string(l.Ref.Type), l.Ref.Item, l.Name, figure(l.Adds), l.Text(fieldkit.Metric), nil, nil}
		if p.entry != nil && i == p.JustLeftOut() {
			left.Entry = packedEntryOf(*p.entry)
		}
		for _, n := range l.Needed {
			left.Needs = append(left.Needs, n.Item)
		}
		out.LeftOut = append(out.LeftOut, left)
	}
	return out
}

func packedLineOf(l spares.Line) packedLine {
	line := packedLine{
		Type: string(l.Line.Type), ID: l.Line.Item, Name: l.Name, Count: l.Line.Count, Bin: l.Line.Bin, Rig: l.Line.Rig,
		Mass: massOf(l.Mass), Volume: volumeOf(l.Volume), Typical: l.Typical.Mass || l.Typical.Volume, Stock: l.Stock, Buy: l.Short,
		Pinned: l.Line.Pinned, Packed: l.Line.Packed, Uses: figure(l.Uses), Saves: figure(l.Saves),
		Share: figure(l.Share), Guessed: l.Guessed, Why: l.Line.Why, Evidence: l.Evidence, Repairs: l.Repairs,
	}
	for _, c := range l.Covers {
		line.Covers = append(line.Covers, packedCover{
			c.Position, c.Title, c.Rig, c.Fitted, string(c.Grade), c.Changes, string(c.Proven), c.Worth,
			figure(c.Likelihood.Expected), figure(c.Likelihood.Probability), c.Likelihood.Evidence, figure(c.Uses),
			c.Without.Hours(), c.With.Hours(), c.Town,
		})
	}
	return line
}

func packedBinOf(b spares.BinSheet) packedBin {
	bin := packedBin{packedHold{ID: b.Bin.ID, Name: b.Bin.Name, Mass: massOf(b.Mass), Volume: volumeOf(b.Volume), Lines: []string{}}, b.Bin.Rig}
	bin.limits(b.Bin.MassLimit, b.Bin.VolumeLimit)
	for _, r := range b.Rows {
		bin.Lines = append(bin.Lines, r.Line.Item)
	}
	return bin
}
