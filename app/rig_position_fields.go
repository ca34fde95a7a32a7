package app

import (
	"strconv"

	"trailfieldkit/fieldkit"
)

// positionFields is what the form of a position starts with.
func positionFields(p fieldkit.Position, known bool, first fieldkit.System) map[string]string {
	if !known {
		return map[string]string{"quantity": "1"}
	}
	fields := map[string]string{
		baseField: baseOf(anyOrder(p)),
		"name":    p.Name, "system": p.System, "parent": p.Parent, "side": string(p.Side), "kind": p.Kind,
		"quantity": strconv.Itoa(p.Quantity), "part": p.Part, "fitted": p.Fitted.String(), "note": p.Note,
		"fittedAt": amountText(p.FittedAt, first, fieldkit.ParseOdometer),
	}
	if p.Proof != nil {
		fields["how"], fields["by"] = string(p.Proof.How), p.Proof.By
	}
	return fields
}

// readPosition makes a position of what was typed, beginning with the position as
// it was; every wrong field is marked.
func readPosition(f *form, p fieldkit.Position, k fieldkit.Kit, first fieldkit.System, today fieldkit.Date) (fieldkit.Position, bool) {
	ok := f.short()
	if p.Name = f.typed("name"); p.Name == "" {
		ok = f.refuse("name", badField("the position has no name", "write what people call it")) && ok
	}
	if p.System = f.get("system"); p.System == "" {
		ok = f.refuse("system", badField("no system is chosen", "choose one, or add one under Systems")) && ok
	}
	if p.Kind = f.get("kind"); p.Kind == "" {
		ok = f.refuse("kind", badField("no kind is chosen", "choose what sits here")) && ok
	}
	if _, there := k.System(p.System); p.System != "" && !there {
		ok = f.refuse("system", badField("the system chosen is not in this kit any more", "choose another")) && ok
	}
	n, err := wholeNumber(f.typed("quantity"), 1, 999)
	ok = f.refuse("quantity", err) && ok
	p.Quantity = n
	p.Side, p.Parent, p.Note = fieldkit.Side(f.get("side")), f.get("parent"), f.typed("note")
	if !offers(parentOptions(k, p.System, p.ID), p.Parent) {
		p.Parent = "" // it belonged under something of the system it has left
	}
	if p.Part = f.get("part"); p.Part == newPart {
		p.Part = ""
	}
	if _, there := k.Part(p.Part); p.Part != "" && !there {
		ok = f.refuse("part", badField("the part chosen is not in this kit any more", "choose another")) && ok
	}
	p.Fitted, err = f.pastDate("fitted", today)
	ok = f.refuse("fitted", err) && ok
	p.FittedAt, err = optionalAmount(f.get("fittedAt"), first, fieldkit.ParseOdometer)
	ok = f.refuse("fittedAt", err) && ok
	p.Proof = proofOf(p.Proof, f.get("how"), f.typed("by"))
	return p, ok
}
