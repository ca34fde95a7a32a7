package kitfile

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// Check lists what is wrong with a kit: references that lead nowhere, IDs given
// twice, words and figures out of range. The problems have pointers into the
// saved file, but no lines. An empty list means that Load takes what Save writes.
func Check(k fieldkit.Kit) []Problem {
	found := &faults{}
	newChecker(&k, found).kitWhole()
	return inKit(k, found)
}

// CheckRecord lists what would be wrong with a record as an entry of the kit;
// pointers begin at the record. Other records are only looked up, not checked.
func CheckRecord(k fieldkit.Kit, r fieldkit.Record) []Problem {
	found := &faults{}
	c := newChecker(&k, found)
	c.few = true
	c.record(r, nil)
	if p, ok := r.(fieldkit.Position); ok {
		c.underItself(p)
	}
	if found.none() {
		return nil
	}
	d, _ := parse("", EncodeRecord(r), &faults{})
	d.about = r.Collection()
	return unplaced(found, d)
}

// CheckHeader lists what is wrong with what a kit says of itself: its format, ID,
// name and currency.
func CheckHeader(k fieldkit.Kit) []Problem {
	found := &faults{}
	newChecker(&k, found).kitItself()
	return inKit(k, found)
}

// inKit puts words to the problems of a kit that was not read from text.
func inKit(k fieldkit.Kit, found *faults) []Problem {
	if found.none() {
		return nil
	}
	d, _ := parse("", appendValue(nil, reflect.ValueOf(k)), &faults{})
	return unplaced(found, d)
}

func unplaced(found *faults, d *document) []Problem {
	problems := found.placed(d).List
	for i := range problems {
		problems[i].Line, problems[i].Column = 0, 0
	}
	return problems
}

// checkInto adds what Check finds, except where reading the file already found
// a fault: a reference to a record that could not be read is not a second one.
func checkInto(k fieldkit.Kit, found *faults) {
	if found.full() {
		return // the list is full, and not all that is faulty is known
	}
	faulty := map[string]bool{}
	unsure := map[string]bool{}
	for _, f := range found.list {
		faulty[f.Pointer] = true
		t := tokens(f.Pointer)
		if len(t) > 0 && (len(t) <= 2 || t[2] == "id") {
			unsure[t[0]] = true
			unsure[nearest(t[0], collectionNames)] = true // a misspelt one
		}
	}
	meant := &faults{}
	c := newChecker(&k, meant)
	c.unsure = unsure
	c.kitWhole()
	for _, f := range meant.list {
		if !underAny(f.Pointer, faulty) {
			found.add(f.Pointer, f.offset, f.Kind, f.What, f.Do)
		}
	}
	found.more += meant.more
}

// collectionNames lists the names of the collections in file order.
var collectionNames = func() (names []string) {
	for _, c := range fieldkit.Collections {
		names = append(names, c.Name)
	}
	return names
}()

// underAny reports whether a pointer or one above it is in the set.
func underAny(pointer string, set map[string]bool) bool {
	for pointer != "" {
		if set[pointer] {
			return true
		}
		pointer = pointer[:strings.LastIndexByte(pointer, '/')]
	}
	return set[""]
}

// trail is the way from the root to a value, kept from the value up; the pointer is
// only put together for a problem.
type trail struct {
	up    *trail
	token string
	index int // when token is ""
}

func (t *trail) pointer() string {
	if t == nil {
		return ""
	}
	if t.token == "" && t.index >= 0 {
		return t.up.pointer() + "/" + strconv.Itoa(t.index)
	}
	return t.up.pointer() + "/" + escape(t.token)
}

// noTrail is a way nobody asks for; it costs nothing to go on from.
var noTrail = &trail{}

func (t *trail) field(name string) *trail {
	if t == noTrail {
		return noTrail
	}
	return &trail{up: t, token: name, index: -1}
}

func (t *trail) entry(i int) *trail {
	if t == noTrail {
		return noTrail
	}
	return &trail{up: t, index: i}
}

// checker holds what a check looks up.
type checker struct {
	kit    *fieldkit.Kit
	found  *faults
	ids    map[string]map[string]int // by collection and ID: the record's index; made when first needed
	unsure map[string]bool           // collections whose IDs are not all known
	hints  int                       // nearest IDs still to be looked for
	few    bool                      // too few records are checked for making ids

	disguised *faults // texts that are not what they read like; nil where nobody asks
}

// maxHints bounds the search for the ID that was meant, which compares with every
// ID of a collection; maxHintIDs is the largest collection searched.
const (
	maxHints   = 40
	maxHintIDs = 2000
)

func newChecker(k *fieldkit.Kit, found *faults) *checker {
	return &checker{kit: k, found: found, ids: map[string]map[string]int{}, hints: maxHints}
}

func (c *checker) note(at *trail, what, do string) {
	c.found.add(at.pointer(), nowhere, fieldkit.BadInput, what, do)
}

func (c *checker) kitItself() {
	c.header()
	// The header has rules of its own, the records are checked one by one.
	c.fields(reflect.ValueOf(c.kit).Elem(), nil, func(name string) bool { return name != "name" })
}

func (c *checker) kitWhole() {
	c.kitItself()
	for _, col := range fieldkit.Collections {
		at := (*trail)(nil).field(col.Name)
		n := col.Len(*c.kit)
		if n > fieldkit.MaxRecords {
			c.found.add(at.pointer(), nowhere, fieldkit.TooBig, fmt.Sprintf("%d records are more than the most, %d", n, fieldkit.MaxRecords), "split the kit")
		}
		ids := c.idsOf(col.Name)
		for i := range n {
			r := col.At(*c.kit, i)
			entry := at.entry(i)
			if first := ids[r.Key()]; first != i && r.Key() != "" {
				c.note(entry.field("id"), fmt.Sprintf("%s is already the id of %s %d", quoted(r.Key()), singular(col.Name), first+1), "give one of the two another id")
			}
			c.record(r, entry)
		}
	}
	c.parents()
}

func (c *checker) header() {
	k := c.kit
	root := (*trail)(nil)
	if k.Format != fieldkit.Format {
		c.note(root.field("format"), fmt.Sprintf("the format is not %q", fieldkit.Format), fmt.Sprintf("write %q", fieldkit.Format))
	}
	if v, ok := parseVersion(k.Version); !ok || v.major != current.major {
		c.note(root.field("version"), fmt.Sprintf("%s is not a version this program writes", quoted(k.Version)), fmt.Sprintf("write %q", current))
	}
	c.id(k.ID, root.field("id"))
	if !isCurrency(k.Currency) {
		c.note(root.field("currency"), fmt.Sprintf("%s is not a currency", quoted(k.Currency)), "write its three capital letters, such as USD")
	}
}

func isCurrency(code string) bool {
	return len(code) == 3 && strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// record checks one record: every field by its type, then the rules of its
// collection, then where it leads.
func (c *checker) record(r fieldkit.Record, at *trail) {
	c.id(r.Key(), at.field("id"))
	v := reflect.ValueOf(r)
	if v.Kind() != reflect.Pointer {
		v = reflect.New(v.Type())
		v.Elem().Set(reflect.ValueOf(r))
		r = v.Interface().(fieldkit.Record)
	}
	c.fields(v.Elem(), at, func(name string) bool { return name == "id" })
	c.rules(r, at)
	references(r, at, c.reference)
}

// idsOf indexes a collection. Of records with the same ID the first counts.
func (c *checker) idsOf(collection string) map[string]int {
	ids, ok := c.ids[collection]
	if !ok {
		col, _ := fieldkit.CollectionNamed(collection)
		n := col.Len(*c.kit)
		ids = make(map[string]int, n)
		for i := range n {
			key := col.At(*c.kit, i).Key()
			if _, taken := ids[key]; !taken {
				ids[key] = i
			}
		}
		c.ids[collection] = ids
	}
	return ids
}

// knows reports whether the kit has a record of that ID.
func (c *checker) knows(collection, id string) bool {
	if c.few {
		col, ok := fieldkit.CollectionNamed(collection)
		return ok && col.Index(*c.kit, id) >= 0
	}
	_, ok := c.idsOf(collection)[id]
	return ok
}

// id checks a key of a record.
func (c *checker) id(id string, at *trail) {
	switch {
	case id == "":
		c.note(at, "the id is empty", "give the record one that no other has")
	case len(id) > fieldkit.MaxID:
		c.found.add(at.pointer(), nowhere, fieldkit.TooBig, fmt.Sprintf("%s is longer than the most, %d", quoted(id), fieldkit.MaxID), "shorten it")
	case !isID(id):
		c.note(at, fmt.Sprintf("%s is not an id", quoted(id)), `begin with a letter or a digit and go on with letters, digits, "-", "_" and "."`)
	}
}

// isID tests the characters of a key: those that need no escaping in an address,
// a file name or a pointer.
func isID(id string) bool {
	for i := range len(id) {
		c := id[i]
		plain := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
		if !plain && (i == 0 || c != '-' && c != '_' && c != '.') {
			return false
		}
	}
	return id != ""
}
