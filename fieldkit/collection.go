package fieldkit

import (
	"iter"
	"reflect"
)

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
func (r Visit) Key() string      { return r.ID }
func (r OwnRepair) Key() string  { return r.ID }
func (r StepNote) Key() string   { return r.ID }

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
func (Visit) Collection() string      { return "visits" }
func (OwnRepair) Collection() string  { return "ownRepairs" }
func (StepNote) Collection() string   { return "stepNotes" }

// Collection gives access to one collection of a kit by name, for code that
// treats all records alike: the journal, the file reader, the checker.
type Collection struct {
	Name   string
	field  int          // of Kit, the list of records
	record reflect.Type // of one of them
}

// records is a collection's list: a List, or a slice as slots has it.
type records interface {
	Len() int
	Record(i int) Record // a pointer to it
	place(id string) int
	put(r Record, place int)
	remove(id string)
	setAll([]Record)
}

// Collections lists the collections in the order of the kit file.
var Collections = collectionsOf(reflect.TypeFor[Kit]())

func collectionsOf(kit reflect.Type) (all []Collection) {
	for i := range kit.NumField() {
		list := kit.Field(i).Type
		record := list
		if list.Kind() == reflect.Slice {
			record = list.Elem()
		} else if long, ok := reflect.Zero(list).Interface().(interface{ Empty() Record }); ok {
			record = reflect.TypeOf(long.Empty())
		} else {
			continue
		}
		empty := reflect.Zero(record).Interface().(Record)
		all = append(all, Collection{Name: empty.Collection(), field: i, record: record})
	}
	return all
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

// New makes an empty record and gives a pointer to it.
func (c Collection) New() any { return reflect.New(c.record).Interface() }

// Value gives the record a pointer made by New points to.
func (c Collection) Value(pointer any) Record {
	return reflect.ValueOf(pointer).Elem().Interface().(Record)
}

// Get returns the record of that ID; ok is false if there is none.
func (c Collection) Get(k Kit, id string) (r Record, ok bool) {
	list := c.of(&k)
	if i := list.place(id); i >= 0 {
		return c.Value(list.Record(i)), true
	}
	return nil, false
}

// Len counts the records.
func (c Collection) Len(k Kit) int { return c.of(&k).Len() }

// At points to the record at a place from 0. It is not to be changed.
func (c Collection) At(k Kit, i int) Record { return c.of(&k).Record(i) }

// Refs goes through the records in their order, as At does.
func (c Collection) Refs(k Kit) iter.Seq[Record] {
	list := c.of(&k)
	return func(yield func(Record) bool) {
		for i := range list.Len() {
			if !yield(list.Record(i)) {
				return
			}
		}
	}
}

// All returns the records in their order.
func (c Collection) All(k Kit) []Record {
	list := c.of(&k)
	all := make([]Record, list.Len())
	for i := range all {
		all[i] = c.Value(list.Record(i))
	}
	return all
}

// Index gives the place of a record in the list from 0, -1 if there is none.
func (c Collection) Index(k Kit, id string) int { return c.of(&k).place(id) }

// Put replaces the record of that ID or appends. Lists are never changed in place,
// here and below: older snapshots of the kit share them.
func (c Collection) Put(k *Kit, r Record) { c.PutAt(k, r, c.Len(*k)) }

// PutAt is Put, but a new record goes to place i, or to the end if the list is
// shorter.
func (c Collection) PutAt(k *Kit, r Record, i int) { c.of(k).put(r, i) }

// SetAll makes the list hold these records, in this order.
func (c Collection) SetAll(k *Kit, records []Record) { c.of(k).setAll(records) }

// Remove drops the record of that ID; it does nothing if there is none.
func (c Collection) Remove(k *Kit, id string) { c.of(k).remove(id) }

// of is the list of the kit.
func (c Collection) of(k *Kit) records {
	field := reflect.ValueOf(k).Elem().Field(c.field)
	if long, ok := field.Addr().Interface().(records); ok {
		return long
	}
	return slots{field}
}

// slots is a collection whose list is a slice. It is searched from its front and
// copied at each change.
type slots struct{ reflect.Value }

func (s slots) Record(i int) Record { return s.Index(i).Addr().Interface().(Record) }

func (s slots) place(id string) int {
	for i := range s.Len() {
		if s.Index(i).Field(0).String() == id { // the ID comes first
			return i
		}
	}
	return -1
}

func (s slots) put(r Record, place int) {
	place = min(max(place, 0), s.Len())
	rest := place // from here on old records come after r
	if i := s.place(r.Key()); i >= 0 {
		place, rest = i, i+1
	}
	list := reflect.Append(s.copied(place, s.Len()+1), reflect.ValueOf(r))
	s.Set(reflect.AppendSlice(list, s.Slice(rest, s.Len())))
}

func (s slots) remove(id string) {
	if i := s.place(id); i >= 0 {
		s.Set(reflect.AppendSlice(s.copied(i, s.Len()), s.Slice(i+1, s.Len())))
	}
}

func (s slots) setAll(records []Record) {
	list := s.copied(0, len(records))
	for _, r := range records {
		list = reflect.Append(list, reflect.ValueOf(r))
	}
	s.Set(list)
}

// copied makes a list of the first n records, with room for more.
func (s slots) copied(n, room int) reflect.Value {
	return reflect.AppendSlice(reflect.MakeSlice(s.Type(), 0, room), s.Slice(0, n))
}
