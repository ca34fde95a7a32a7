package fieldkit

import "slices"

// Record is one entry of a kit's collections.
type Record interface {
	Key() string        // its ID
	Collection() string // the name of its collection in the kit file
}

func (r Rig) Key() string        { return r.ID }
func (r Assembly) Key() string   { return r.ID }
func (r Position) Key() string   { return r.ID }
func (r Donor) Key() string      { return r.ID }
func (r Part) Key() string       { return r.ID }
func (r Link) Key() string       { return r.ID }
func (r Bin) Key() string        { return r.ID }
func (r Spare) Key() string      { return r.ID }
func (r Consumable) Key() string { return r.ID }
func (r Tool) Key() string       { return r.ID }
func (r Trip) Key() string       { return r.ID }
func (r Pack) Key() string       { return r.ID }
func (r Run) Key() string        { return r.ID }
func (r Failure) Key() string    { return r.ID }
func (r Inspection) Key() string { return r.ID }

func (Rig) Collection() string        { return "rigs" }
func (Assembly) Collection() string   { return "systems" }
func (Position) Collection() string   { return "positions" }
func (Donor) Collection() string      { return "donors" }
func (Part) Collection() string       { return "parts" }
func (Link) Collection() string       { return "links" }
func (Bin) Collection() string        { return "bins" }
func (Spare) Collection() string      { return "spares" }
func (Consumable) Collection() string { return "consumables" }
func (Tool) Collection() string       { return "tools" }
func (Trip) Collection() string       { return "trips" }
func (Pack) Collection() string       { return "packs" }
func (Run) Collection() string        { return "runs" }
func (Failure) Collection() string    { return "failures" }
func (Inspection) Collection() string { return "inspections" }

// Collection gives access to one collection of a kit by name, for code that
// treats all records alike: the journal, the file reader, the checker.
type Collection struct {
	Name   string
	New    func() any // pointer to an empty record
	Value  func(pointer any) Record
	Get    func(k Kit, id string) (Record, bool)
	All    func(k Kit) []Record
	Set    func(k *Kit, all []Record)    // replaces the whole list
	Index  func(k Kit, id string) int    // place in the list from 0, -1 if there is none
	Put    func(k *Kit, r Record)        // replaces the record of that ID or appends
	PutAt  func(k *Kit, r Record, i int) // as Put, but a new record goes to place i, or the end if the list is shorter
	Remove func(k *Kit, id string)       // does nothing if there is none
}

// Collections lists the collections in the order of the kit file.
var Collections = []Collection{
	collection(func(k *Kit) *[]Rig { return &k.Rigs }),
	collection(func(k *Kit) *[]Assembly { return &k.Systems }),
	collection(func(k *Kit) *[]Position { return &k.Positions }),
	collection(func(k *Kit) *[]Donor { return &k.Donors }),
	collection(func(k *Kit) *[]Part { return &k.Parts }),
	collection(func(k *Kit) *[]Link { return &k.Links }),
	collection(func(k *Kit) *[]Bin { return &k.Bins }),
	collection(func(k *Kit) *[]Spare { return &k.Spares }),
	collection(func(k *Kit) *[]Consumable { return &k.Consumables }),
	collection(func(k *Kit) *[]Tool { return &k.Tools }),
	collection(func(k *Kit) *[]Trip { return &k.Trips }),
	collection(func(k *Kit) *[]Pack { return &k.Packs }),
	collection(func(k *Kit) *[]Run { return &k.Runs }),
	collection(func(k *Kit) *[]Failure { return &k.Failures }),
	collection(func(k *Kit) *[]Inspection { return &k.Inspections }),
}

// CollectionNamed finds a collection by its name in the kit file.
func CollectionNamed(name string) (Collection, bool) {
	for _, c := range Collections {
		if c.Name == name {
			return c, true
		}
	}
	return Collection{}, false
}

func collection[T Record](list func(*Kit) *[]T) Collection {
	var zero T
	return Collection{
		Name:  zero.Collection(),
		New:   func() any { return new(T) },
		Value: func(p any) Record { return *p.(*T) },
		Get: func(k Kit, id string) (Record, bool) {
			r, ok := Find(*list(&k), id)
			return r, ok
		},
		All: func(k Kit) []Record {
			all := make([]Record, len(*list(&k)))
			for i, r := range *list(&k) {
				all[i] = r
			}
			return all
		},
		Set: func(k *Kit, all []Record) {
			set := make([]T, len(all))
			for i, r := range all {
				set[i] = r.(T)
			}
			*list(k) = set
		},
		Index: func(k Kit, id string) int { return indexOf(*list(&k), id) },
		// The lists are copied before they change: older snapshots of the kit
		// share them.
		Put:   func(k *Kit, r Record) { putAt(list(k), r.(T), len(*list(k))) },
		PutAt: func(k *Kit, r Record, i int) { putAt(list(k), r.(T), i) },
		Remove: func(k *Kit, id string) {
			if i := indexOf(*list(k), id); i >= 0 {
				*list(k) = slices.Delete(slices.Clone(*list(k)), i, i+1)
			}
		},
	}
}

func putAt[T Record](list *[]T, r T, i int) {
	old := *list
	if j := indexOf(old, r.Key()); j >= 0 {
		changed := slices.Clone(old)
		changed[j] = r
		*list = changed
		return
	}
	i = min(max(i, 0), len(old))
	*list = slices.Concat(old[:i], []T{r}, old[i:])
}

func indexOf[T Record](list []T, id string) int {
	return slices.IndexFunc(list, func(r T) bool { return r.Key() == id })
}

// Find returns the record of that ID; ok is false if there is none.
func Find[T Record](list []T, id string) (r T, ok bool) {
	if i := indexOf(list, id); i >= 0 {
		return list[i], true
	}
	return r, false
}
