package repair

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// Guide is one complete repair, from what it looks like to what to look at again
// at home.
type Guide struct {
	ID        string   `json:"id"`
	Title     string   `json:"title"`
	System    string   `json:"system"`  // usual system, as in the catalog's part kinds
	Summary   string   `json:"summary"` // what it looks like
	Symptoms  []string `json:"symptoms"`
	PartKinds []string `json:"partKinds"` // part kinds this repair replaces or mends, the main one first
	// Suits says which rigs the repair is written for; empty is all of them.
	Suits Condition `json:"suits,omitempty"`

	Roll          []Ruling `json:"roll"`          // may it be pushed, winched or towed as it stands
	Drive         []Ruling `json:"drive"`         // may it be driven as it stands
	AfterFieldFix []Ruling `json:"afterFieldFix"` // may it be driven once the field fix holds

	Hands     int              `json:"hands"` // people needed, 1 or more
	Time      fieldkit.Minutes `json:"time"`
	Failed    string           `json:"failed"`    // what the log says broke: "steering pump failed"
	FieldFix  string           `json:"fieldFix"`  // what gets the rig out, in one line
	ProperFix string           `json:"properFix"` // what makes it good, in one line

	Tools       []ToolNeed       `json:"tools"`
	Consumables []ConsumableNeed `json:"consumables,omitempty"`
	Parts       []PartNeed       `json:"parts,omitempty"`

	// Own marks a repair the crew wrote itself: nobody else has checked it.
	Own bool `json:"-"`

	StopSigns  []string   `json:"stopSigns"` // what ends the work at once
	Steps      []Step     `json:"steps"`
	Afterwards Afterwards `json:"afterwards"`
}

// ToolNeed is a tool the repair asks for.
type ToolNeed struct {
	Kind     string `json:"kind"` // tool kind of the catalog
	Why      string `json:"why"`
	Count    int    `json:"count"`
	Optional bool   `json:"optional,omitempty"` // the proper fix can be done without it
}

// ConsumableNeed is what the repair uses up.
type ConsumableNeed struct {
	Kind     string         `json:"kind"`   // consumable kind of the catalog
	Amount   fieldkit.Value `json:"amount"` // "500 mL", or a count of pieces
	Optional bool           `json:"optional,omitempty"`
}

// PartNeed is a part the proper fix fits new.
type PartNeed struct {
	Kind     string `json:"kind"` // part kind of the catalog
	Count    int    `json:"count"`
	Optional bool   `json:"optional,omitempty"`
}

// Afterwards is what to look at again when the rig is back together.
type Afterwards struct {
	After10km []string `json:"after10km"`
	AtHome    []string `json:"atHome"`
}

// Named returns the guide of that ID.
func Named(guides []Guide, id string) (Guide, bool) {
	for _, g := range guides {
		if g.ID == id {
			return g, true
		}
	}
	return Guide{}, false
}

// Step returns the step of that ID.
func (g Guide) Step(id string) (Step, bool) {
	if i := g.index(id); i >= 0 {
		return g.Steps[i], true
	}
	return Step{}, false
}

func (g Guide) index(id string) int {
	for i, s := range g.Steps {
		if s.ID == id {
			return i
		}
	}
	return -1
}

// For returns the guide with only those tools, consumables and parts that steps
// this rig may come to ask for: a semi-float axle's puller is no use to a
// full-float one.
func (g Guide) For(rig fieldkit.Rig) Guide {
	var tools, consumables, parts []string
	shown, _ := g.mayShow(rig)
	for _, id := range shown {
		s, _ := g.Step(id)
		tools, consumables, parts = append(tools, s.Tools...), append(consumables, s.Consumables...), append(parts, s.Parts...)
	}
	g.Tools = only(g.Tools, func(n ToolNeed) bool { return slices.Contains(tools, n.Kind) })
	g.Consumables = only(g.Consumables, func(n ConsumableNeed) bool { return slices.Contains(consumables, n.Kind) })
	g.Parts = only(g.Parts, func(n PartNeed) bool { return slices.Contains(parts, n.Kind) })
	return g
}

func only[T any](list []T, keep func(T) bool) (kept []T) {
	for _, one := range list {
		if keep(one) {
			kept = append(kept, one)
		}
	}
	return kept
}
