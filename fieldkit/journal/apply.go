package journal

import (
	"encoding/json"
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/merge"
)

// apply returns the kit as it is after the entry. An entry that cannot be applied
// whole is not applied at all.
func apply(k fieldkit.Kit, e Entry) (fieldkit.Kit, error) {
	if len(e.Kit) > 0 {
		return kitfile.DecodeKit(e.Kit)
	}
	changed := k // lists are copied before they change, so k stays as it is
	for _, c := range e.Changes {
		if err := applyChange(&changed, c); err != nil {
			return k, err
		}
	}
	return changed, nil
}

// follow returns the history as it is after the entry: h itself, changed in place,
// or that of a kit that starts anew. Its clock never goes back. Entries of before
// stamps are given the stamp they would have had.
func follow(h *merge.History, e Entry) (*merge.History, error) {
	if len(e.Kit) > 0 {
		anew, err := merge.Decode(e.History)
		if err != nil {
			return h, err
		}
		if anew.By = ""; h.Clock.Compare(anew.Clock) > 0 {
			anew.Clock = h.Clock
		}
		return anew, nil
	}
	if len(e.Changes) == 0 {
		return h, nil
	}
	stamp := e.Stamp
	if stamp.IsZero() {
		stamp = h.Next(e.At, e.ID)
	}
	changes := make([]merge.Change, len(e.Changes))
	for i, c := range e.Changes {
		changes[i] = merge.Change{Collection: c.Collection, ID: c.ID, Before: c.Before, After: c.After, Settled: c.Settled}
	}
	h.Record(stamp, changes)
	return h, nil
}

// applyChange trusts After, the whole record as the person left it, whatever was
// there before: so one lost entry does not take the later ones with it.
func applyChange(k *fieldkit.Kit, c Change) error {
	if c.Collection == kitCollection {
		var f kitFields
		if err := json.Unmarshal(c.After, &f); err != nil {
			return fmt.Errorf("the kit's name and currency: %w", err)
		}
		k.Name, k.Currency, k.Extra = f.Name, f.Currency, f.Extra
		return nil
	}
	list, ok := fieldkit.CollectionNamed(c.Collection)
	if !ok {
		return fmt.Errorf("%q is not known to this version of the program", c.Collection)
	}
	if len(c.After) == 0 {
		list.Remove(k, c.ID)
		return nil
	}
	r, err := kitfile.DecodeRecord(c.Collection, c.After)
	if err != nil {
		return fmt.Errorf("%s %q: %w", c.Collection, c.ID, err)
	}
	if r.Key() != c.ID {
		return fmt.Errorf("%s %q holds %q", c.Collection, c.ID, r.Key())
	}
	if c.Place > 0 {
		list.PutAt(k, r, c.Place-1)
	} else {
		list.Put(k, r)
	}
	return nil
}
