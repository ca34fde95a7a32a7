package repair

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// Source says where a figure is from.
type Source string

const (
	// FromFastener is computed from the fastener: T = K·D·F at 75 % of the proof
	// load, K from 0.15 (oiled) to 0.20 (dry); proof loads of SAE J429 and
	// ISO 898-1.
	FromFastener Source = "computed from the fastener"
	// CommonPractice is what the trade does, from no single publication.
	CommonPractice Source = "common practice"
)

// StandingLabel stands beside every figure: the program's figures never
// overrule the maker's.
const StandingLabel = "a starting figure; the maker's figure stands"

// Torque is how tight a fastener is done up, as a range.
type Torque struct {
	Fastener string          `json:"fastener"` // "caliper bracket bolt"
	Thread   string          `json:"thread,omitempty"`
	Grade    string          `json:"grade,omitempty"`
	Low      fieldkit.Torque `json:"low"`
	High     fieldkit.Torque `json:"high"`
	Source   Source          `json:"source"`
	Note     string          `json:"note,omitempty"`
}

// Figure is another measured limit: end play, run-out, lining left. Low or High
// may be left out, not both.
type Figure struct {
	What   string         `json:"what"`
	Low    fieldkit.Value `json:"low,omitzero"`
	High   fieldkit.Value `json:"high,omitzero"`
	Source Source         `json:"source"`
	Note   string         `json:"note,omitempty"`
}

// Text prints the fastener, the range in both systems and what the figure
// rests on.
func (t Torque) Text(first fieldkit.System) string {
	name := t.Fastener
	if size := strings.TrimSpace(t.Thread + " " + t.Grade); size != "" {
		name += " (" + size + ")"
	}
	show := func(s fieldkit.System) string { return between(t.Low.Show(s), t.High.Show(s)) }
	return figureText(name, show(first)+" ("+show(first.Other())+")", t.Source, t.Note)
}

// Text prints the limit in both systems and what it rests on.
func (f Figure) Text(first fieldkit.System) string {
	lead, show := "", func(s fieldkit.System) string { return between(f.Low.Show(s), f.High.Show(s)) }
	switch {
	case f.Low.IsZero():
		lead, show = "at most ", f.High.Show
	case f.High.IsZero():
		lead, show = "at least ", f.Low.Show
	}
	amount := lead + show(first)
	if other := show(first.Other()); other != show(first) {
		amount += " (" + other + ")"
	}
	return figureText(f.What, amount, f.Source, f.Note)
}

func figureText(name, amount string, source Source, note string) string {
	text := name + ": " + amount + "; " + string(source) + ", " + StandingLabel
	if note != "" {
		text += "; " + note
	}
	return text
}

// between joins a range, naming the unit once: "81 to 108 N·m".
func between(low, high string) string {
	if low == high {
		return low
	}
	_, unitLow, _ := strings.Cut(low, " ")
	number, unitHigh, _ := strings.Cut(high, " ")
	if unitLow == unitHigh && unitLow != "" {
		low = strings.TrimSuffix(low, " "+unitLow)
		return low + " to " + number + " " + unitHigh
	}
	return low + " to " + high
}
