package app

import (
	"strconv"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// blankFor takes the systems and positions of a blank kit's first rig for another
// rig. Their keys are made from that rig's, so that writing them twice writes them
// once, and two rigs begun blank do not share any.
func blankFor(blank fieldkit.Kit, rig string) fieldkit.Kit {
	var out fieldkit.Kit
	if len(blank.Rigs) == 0 {
		return out
	}
	systems, positions := map[string]string{}, map[string]string{}
	for i, sys := range systemsOf(blank, blank.Rigs[0].ID) {
		systems[sys.ID] = rig + "-s" + strconv.Itoa(i+1)
		sys.ID, sys.Rig = systems[sys.ID], rig
		out.Systems = append(out.Systems, sys)
	}
	list := blank.PositionsOf(blank.Rigs[0].ID)
	for i, p := range list {
		positions[p.ID] = rig + "-p" + strconv.Itoa(i+1)
	}
	for _, p := range list {
		p.ID, p.System, p.Parent = positions[p.ID], systems[p.System], positions[p.Parent]
		p.Part, p.Proof = "", nil
		out.Positions = out.Positions.With(p)
	}
	return out
}

// putBeginning keeps the systems and positions that a rig begins with.
func putBeginning(e *journal.Edit, begin fieldkit.Kit) {
	for _, sys := range begin.Systems {
		e.Put(sys)
	}
	for _, p := range begin.Positions.All() {
		e.Put(p)
	}
}
