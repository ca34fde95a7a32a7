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
	Mass     amount        `json:"mass"`
	Volume   amount        `json:"volume"`
	Stock    int           `json:"stock"`
	Buy      int           `json:"buy"`
	Pinned   bool          `json:"pinned,omitempty"`
	Packed   bool          `json:"packed,omitempty"`
	Uses     float64       `json:"uses"`
	Saves    float64       `json:"saves"`
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
	Expected     float64  `json:"expected"`
	Probability  float64  `json:"probability"`
	Evidence     string   `json:"evidence"`
	Uses         float64  `json:"uses"`
	HoursWithout float64  `json:"hoursWithout"`
	HoursWith    float64  `json:"hoursWith"`
	Town         string   `json:"town,omitempty"`
}

type packedBin struct {
	ID          string   `json:"id"` // none for what has no bin
	Name        string   `json:"name"`
	Rig         string   `json:"rig,omitempty"`
	Mass        amount   `json:"mass"`
	MassLimit   *amount  `json:"massLimit,omitempty"`
	Volume      amount   `json:"volume"`
	VolumeLimit *amount  `json:"volumeLimit,omitempty"`
	Lines       []string `json:"lines"`
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
	Type  string   `json:"type"`
	ID    string   `json:"id"`
	Name  string   `json:"name"`
	Adds  float64  `json:"adds"`
	Why   string   `json:"why"`
	Needs []string `json:"needs,omitempty"`
}

func packAsJSON(trip fieldkit.Trip, p spares.Proposal) packed {
	out := packed{
		Trip: packedTrip{trip.ID, trip.Name}, Value: figure(p.Value), Bound: figure(p.Bound), Proved: p.Proved, Without: figure(p.Bare), With: figure(p.Left),
		Lines: []packedLine{}, Bins: []packedBin{}, Shopping: []packedNeed{}, LeftOut: []packedLeft{}, Notes: list(p.Notes),
	}
	for _, l := range p.Lines {
		out.Lines = append(out.Lines, packedLineOf(l))
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
	for _, l := range p.LeftOut {
		left := packedLeft{string(l.Ref.Type), l.Ref.Item, l.Name, figure(l.Adds), l.Text(fieldkit.Metric), nil}
		for _, n := range l.Needed {
			left.Needs = append(left.Needs, n.Item)
		}
		out.LeftOut = append(out.LeftOut, left)
	}
	return out
}

func packedLineOf(l spares.Line) packedLine {
	line := packedLine{
		Type: string(l.Line.Type), ID: l.Line.Item, Name: l.Name, Count: l.Line.Count, Bin: l.Line.Bin,
		Mass: massOf(l.Mass), Volume: volumeOf(l.Volume), Stock: l.Stock, Buy: l.Short,
		Pinned: l.Line.Pinned, Packed: l.Line.Packed, Uses: figure(l.Uses), Saves: figure(l.Saves),
		Why: l.Line.Why, Evidence: l.Evidence, Repairs: l.Repairs,
	}
	for _, c := range l.Covers {
		line.Covers = append(line.Covers, packedCover{
			c.Position, c.Title, c.Rig, c.Fitted, string(c.Grade), c.Changes, string(c.Proven),
			figure(c.Likelihood.Expected), figure(c.Likelihood.Probability), c.Likelihood.Evidence, figure(c.Uses),
			c.Without.Hours(), c.With.Hours(), c.Town,
		})
	}
	return line
}

func packedBinOf(b spares.BinSheet) packedBin {
	bin := packedBin{ID: b.Bin.ID, Name: b.Bin.Name, Rig: b.Bin.Rig, Mass: massOf(b.Mass), Volume: volumeOf(b.Volume), Lines: []string{}}
	if b.Bin.MassLimit > 0 {
		limit := massOf(b.Bin.MassLimit)
		bin.MassLimit = &limit
	}
	if b.Bin.VolumeLimit > 0 {
		limit := volumeOf(b.Bin.VolumeLimit)
		bin.VolumeLimit = &limit
	}
	for _, r := range b.Rows {
		bin.Lines = append(bin.Lines, r.Line.Item)
	}
	return bin
}
