package fieldkit

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each list of the kit has its collection, in file order and by its file name.
func TestCollectionsAreThoseOfTheKit(t *testing.T) {
	var inFile []string
	kit := reflect.TypeFor[Kit]()
	for i := range kit.NumField() {
		if f := kit.Field(i); f.Type.Kind() == reflect.Slice || strings.HasPrefix(f.Type.Name(), "List[") {
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			inFile = append(inFile, name)
		}
	}
	var known []string
	for _, c := range Collections {
		known = append(known, c.Name)
	}
	assert.Equal(t, inFile, known)
}

// withID makes a record of the collection.
func withID(c Collection, id string) Record {
	p := c.New()
	reflect.ValueOf(p).Elem().FieldByName("ID").SetString(id)
	return c.Value(p)
}

func TestPutGetRemove(t *testing.T) {
	for _, c := range Collections {
		t.Run(c.Name, func(t *testing.T) {
			var k Kit
			c.Put(&k, withID(c, "a"))
			c.Put(&k, withID(c, "b"))
			before := k
			c.Put(&k, withID(c, "a"))
			assert.Len(t, c.All(k), 2, "a record of a known ID replaces")
			r, ok := c.Get(k, "b")
			require.True(t, ok)
			assert.Equal(t, "b", r.Key())
			assert.Equal(t, c.Name, r.Collection())
			c.Remove(&k, "a")
			c.Remove(&k, "nothing")
			assert.Len(t, c.All(k), 1)
			_, ok = c.Get(k, "a")
			assert.False(t, ok)
			assert.Len(t, c.All(before), 2, "an older snapshot keeps what it had")
			named, ok := CollectionNamed(c.Name)
			require.True(t, ok)
			assert.Equal(t, c.Name, named.Name)
		})
	}
	_, ok := CollectionNamed("boats")
	assert.False(t, ok)
}

// A snapshot is not changed by what is put or removed after it was taken.
func TestSnapshotsAreNotShared(t *testing.T) {
	c, _ := CollectionNamed("parts")
	var k Kit
	c.Put(&k, Part{ID: "a", Name: "old"})
	c.Put(&k, Part{ID: "b", Name: "old"})
	snapshot := k
	c.Put(&k, Part{ID: "a", Name: "new"})
	c.Put(&k, Part{ID: "c", Name: "new"})
	other := snapshot
	c.Put(&other, Part{ID: "d", Name: "other"})
	c.Remove(&k, "b")
	assert.Equal(t, []Part{{ID: "a", Name: "old"}, {ID: "b", Name: "old"}}, snapshot.Parts.Slice())
	assert.Equal(t, "d", other.Parts.At(2).ID)
	assert.Equal(t, "c", k.Parts.At(1).ID)
}

// The ID is the first field of every record, by which long lists are searched.
func TestTheIDComesFirst(t *testing.T) {
	for _, c := range Collections {
		p := c.New()
		reflect.ValueOf(p).Elem().Field(0).SetString("here")
		assert.Equal(t, "here", c.Value(p).Key(), c.Name)
	}
}
