package repair

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"

	"trailfieldkit/fieldkit"
)

// WithOwn gives the repairs of the program and, behind them, those the crew wrote
// itself. An own one with the ID of another is left out: the program's stands.
func WithOwn(guides []Guide, kit fieldkit.Kit) []Guide {
	all := slices.Clip(guides)
	for _, own := range kit.OwnRepairs {
		if _, taken := Named(guides, own.ID); !taken && len(own.Steps) > 0 {
			all = append(all, fromOwn(own))
		}
	}
	return all
}

// onePiece is the amount of a consumable of which the crew did not say how much.
var onePiece = fieldkit.Value{Dim: fieldkit.DimCount, Base: 1_000_000}

// OwnSystem groups own repairs that name no system.
const OwnSystem = "our own"

// fromOwn makes a guide of an own repair: its steps in their order, the cautions in
// front. What the crew did not say is left open; nothing is made up for it.
func fromOwn(own fieldkit.OwnRepair) Guide {
	g := Guide{
		ID: own.ID, Title: own.Title, System: own.System, Summary: own.Summary, PartKinds: own.PartKinds, Own: true,
		Hands: max(own.Hands, 1), Time: own.Time, Failed: own.Title, FieldFix: own.Title, ProperFix: own.Title,
		StopSigns: own.StopSigns, Afterwards: Afterwards{After10km: own.Afterwards},
	}
	if g.System == "" {
		g.System = OwnSystem
	}
	for _, kind := range own.Tools {
		g.Tools = append(g.Tools, ToolNeed{Kind: kind, Count: 1})
	}
	for _, kind := range own.Consumables {
		g.Consumables = append(g.Consumables, ConsumableNeed{Kind: kind, Amount: onePiece})
	}
	ids := ownStepIDs(own.Steps)
	for i, s := range own.Steps {
		step := Step{ID: ids[i], Stage: Proper, Text: s.Text}
		if s.Caution != "" {
			step.Cautions = []Caution{{Hazard: s.Caution}}
		}
		if i == 0 {
			step.Tools, step.Consumables = own.Tools, own.Consumables
		}
		g.Steps = append(g.Steps, step)
	}
	return g
}

// ownStepIDs names steps by what they say, so that notes and a repair under way stay
// with their step when another is put in front of it. Of steps that say the same, the
// later ones are numbered.
func ownStepIDs(steps []fieldkit.OwnStep) []string {
	ids := make([]string, len(steps))
	times := map[string]int{}
	for i, s := range steps {
		h := fnv.New64a()
		h.Write([]byte(s.Text))
		id := strconv.FormatUint(h.Sum64(), 36)
		if times[id]++; times[id] > 1 {
			id += "-" + strconv.Itoa(times[id])
		}
		ids[i] = id
	}
	return ids
}

// NoteAt gives the crew's note at a step, empty if there is none.
func NoteAt(kit fieldkit.Kit, guide, step string) string {
	n, _ := fieldkit.Find(kit.StepNotes, fieldkit.NoteID(guide, step))
	return n.Text
}

// StrayNotes lists the notes to steps that a repair does not have any more, so that none
// is lost by an update or an edit; at a repair of the program with the step they were for.
func StrayNotes(kit fieldkit.Kit, guides []Guide, guide string) (list []string) {
	g, _ := Named(guides, guide)
	for _, n := range kit.StepNotes {
		if _, there := g.Step(n.Step); n.Guide != guide || there {
			continue
		}
		if g.Own {
			list = append(list, n.Text)
		} else {
			list = append(list, fmt.Sprintf("%s (at %s)", n.Text, n.Step))
		}
	}
	return list
}
