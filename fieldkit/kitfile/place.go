package kitfile

import "trailfieldkit/fieldkit"

// Place finds the lines of problems known by their pointers alone: what a caller's
// own rules found in a document that Decode has read. The error is a *Problems in
// file order, nil if there are no problems.
func Place(name string, data []byte, list []Problem) error {
	if len(list) == 0 {
		return nil
	}
	found := &faults{}
	d, _ := parse(name, data, found)
	for _, p := range list {
		kind := p.Kind
		if kind == "" {
			kind = fieldkit.BadInput
		}
		found.add(p.Pointer, nowhere, kind, p.What, p.Do)
	}
	return found.placed(d)
}
