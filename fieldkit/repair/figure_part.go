package repair

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// PartTorque is how tight a fastener of this rig is done up, as the crew wrote it at a
// part: it stands before what is computed from the size.
type PartTorque struct {
	Part   fieldkit.Part
	Torque fieldkit.Value
	How    string // where it was read
}

// torqueName begins the name of a measurement that is a fastener's torque: "torque,
// unit bolt".
const torqueName = "torque"

// TorqueName is how a torque is named at a part, so that steps find it.
func TorqueName(fastener string) string { return torqueName + ", " + shortFastener(fastener) }

// shortFastener leaves out what stands behind a comma: "unit bolt" of "unit bolt, M12".
func shortFastener(name string) string {
	name, _, _ = strings.Cut(name, ",")
	return strings.TrimSpace(name)
}

// OfPart finds the torque of a fastener at the part fitted at a position, at those under
// it, or at those beside it under the same parent; the nearest counts.
func (t Torque) OfPart(kit fieldkit.Kit, position fieldkit.Position) (PartTorque, bool) {
	if position.ID == "" {
		return PartTorque{}, false
	}
	for _, belongs := range []func(q fieldkit.Position) bool{
		func(q fieldkit.Position) bool { return q.ID == position.ID },
		func(q fieldkit.Position) bool { return q.Parent == position.ID },
		func(q fieldkit.Position) bool {
			return position.Parent != "" && (q.ID == position.Parent || q.Parent == position.Parent)
		},
	} {
		for _, q := range kit.Positions.All() {
			if q.Part == "" || !belongs(q) {
				continue
			}
			part, _ := kit.Part(q.Part)
			for _, m := range part.Measurements {
				if m.Value.Dim == fieldkit.DimTorque && names(m.Name, t.Fastener) {
					return PartTorque{part, m.Value, m.How}, true
				}
			}
		}
	}
	return PartTorque{}, false
}

// names reports whether a measurement is called after a fastener, in any case and
// spacing: "Torque, Unit bolt".
func names(measurement, fastener string) bool {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(measurement, ",", " ")))
	return strings.Join(words, " ") == torqueName+" "+strings.ToLower(shortFastener(fastener))
}

// Text prints what stands at the part, in both systems, and whose it is.
func (p PartTorque) Text(fastener string, first fieldkit.System) string {
	text := shortFastener(fastener) + ": " + p.Torque.Both(first) + "; as written at " + p.Part.Name
	if p.How != "" {
		text += ", " + p.How
	}
	return text
}

// TorqueWords puts the torques of a step in words. Where one is written at a part of the
// rig, that one stands and the computed ones of the same fastener are left out.
func (s Step) TorqueWords(kit fieldkit.Kit, position fieldkit.Position, first fieldkit.System) (list []string) {
	for _, t := range s.Torques {
		words := t.Text(first)
		if own, ok := t.OfPart(kit, position); ok {
			words = own.Text(t.Fastener, first)
		}
		if !slices.Contains(list, words) {
			list = append(list, words)
		}
	}
	return list
}
