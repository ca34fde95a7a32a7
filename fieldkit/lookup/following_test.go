package lookup_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
)

// editor makes the edits a kit sees: a record added, changed or deleted, one taken back,
// a list restored, records of another copy joined in.
type editor struct {
	*rand.Rand
	kit    fieldkit.Kit
	before []fieldkit.Kit
}

func collection(name string) fieldkit.Collection {
	c, ok := fieldkit.CollectionNamed(name)
	if !ok {
		panic(name)
	}
	return c
}

func (e *editor) one(words ...string) string { return words[e.IntN(len(words))] }

func (e *editor) id(kind string, n int) string { return fmt.Sprint(kind, e.IntN(n)) }

// record makes one that is new, or another in the place of one there is.
func (e *editor) record(of string) fieldkit.Record {
	kind := catalog.PartKinds[e.IntN(len(catalog.PartKinds))].ID
	switch of {
	case "parts":
		p := fieldkit.Part{ID: e.id("p", 60), Kind: kind, Donor: e.id("d", 4), Name: e.one("outer", "inner", "") + " " + e.one("bearing", "pump", "seal", "wheel bearing")}
		for range e.IntN(3) {
			p.Numbers = append(p.Numbers, number(fmt.Sprintf("%s-%02d", e.one("AB", "A8", "XY"), e.IntN(30)), fieldkit.ReplacementNumber, e.one("Kestrel", "Orrin")))
		}
		for range e.IntN(2) {
			p.Numbers = append(p.Numbers, number(e.one("6207", "6207-2RS", "6208", "LM501349/LM501310", "387A/382A"), fieldkit.StandardNumber, "ISO 15"))
		}
		for range e.IntN(2) {
			p.Measurements = append(p.Measurements, fieldkit.Measurement{Name: e.one("bore", "length"), Value: value(fmt.Sprintf("%d mm", 30+e.IntN(10)))})
		}
		return p
	case "positions":
		p := fieldkit.Position{ID: e.id("at", 40), System: e.id("s", 5), Name: e.one("wheel end", "hub", "pump", "shaft"), Kind: kind}
		if e.IntN(3) > 0 {
			p.Part = e.id("p", 60)
		}
		if e.IntN(2) == 0 {
			p.Parent = e.id("at", 40)
		}
		p.Side = []fieldkit.Side{fieldkit.NoSide, fieldkit.Left, fieldkit.Right}[e.IntN(3)]
		return p
	case "spares":
		return fieldkit.Spare{ID: e.id("sp", 20), Part: e.id("p", 60), Count: e.IntN(3), Bin: e.id("b", 3)}
	case "rigs":
		return fieldkit.Rig{ID: e.id("r", 3), Name: e.one("Heron", "Bittern", "Crane"), Odometer: fieldkit.Distance(e.IntN(1000)) * fieldkit.Kilometre}
	case "systems":
		return fieldkit.Assembly{ID: e.id("s", 5), Rig: e.id("r", 3), Name: e.one("front axle", "steering", "brakes")}
	case "donors":
		return fieldkit.Donor{ID: e.id("d", 4), Make: e.one("Halden", "Orrin"), Model: e.one("Cairn", "Packsaddle"), YearFrom: 1980 + e.IntN(5), Axle: e.one("", "long axle"), Note: e.one("", "red")}
	case "bins":
		return fieldkit.Bin{ID: e.id("b", 3), Name: e.one("drawer", "roof box")}
	case "tools":
		return fieldkit.Tool{ID: e.id("t", 4), Kind: "bearing-nut-socket", Name: e.one("socket", "four lug socket"), Owned: e.IntN(2) == 0, Bin: e.id("b", 3)}
	case "consumables":
		return fieldkit.Consumable{ID: e.id("c", 4), Kind: "brake-fluid", Name: e.one("brake fluid", "fluid"), Count: e.IntN(3), Bin: e.id("b", 3)}
	}
	return fieldkit.Link{ID: e.id("l", 9), For: "p1", With: "p2", Grade: fieldkit.DropIn} // which is not searched
}

var edited = []string{"parts", "parts", "parts", "positions", "positions", "positions", "spares", "spares", "rigs", "systems", "donors", "bins", "tools", "consumables", "links"}

func (e *editor) edit() {
	e.before = append(e.before, e.kit)
	c := collection(e.one(edited...))
	r := e.record(c.Name)
	switch e.IntN(12) {
	case 0, 1:
		c.Remove(&e.kit, r.Key())
	case 2: // as a deletion is taken back
		c.PutAt(&e.kit, r, e.IntN(c.Len(e.kit)+1))
	case 3: // taken back
		e.kit = e.before[max(0, len(e.before)-1-e.IntN(4))]
	case 4: // restored: read anew and in another order
		if e.IntN(4) == 0 {
			all := c.All(e.kit)
			e.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			c.SetAll(&e.kit, all)
		}
	case 5: // joined with a copy edited elsewhere
		if e.IntN(4) == 0 {
			for _, other := range c.All(e.before[e.IntN(len(e.before))]) {
				c.Put(&e.kit, other)
			}
		}
	default:
		c.Put(&e.kit, r)
	}
}

// An index that goes on from the one before finds what one made of the same kit finds:
// the same hits, in the same order, with the same words.
func TestFollowingAnyEditsAsMadeAnew(t *testing.T) {
	queries := []string{"bearing", "outer bearing", "p", "pump", "AB-12", "A8 1?", "ab1", "*2*", "AB*", "6207", "6207-2RS", "387A", "35 mm", "35 mm bore bearing", "1982", "halden 1983 pump",
		"heron", "front axle left", "drawer", "spare", "roof box socket", "wheel end", "hub wheel end", "brake fluid", "bering", "kestrel seal", "orrin", "long axle", "red", "steering pump heron", "packsaddle"}
	const kits, steps = 12, 50
	followed := 0
	for seed := range kits {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			e := &editor{Rand: rand.New(rand.NewPCG(uint64(seed), 9))}
			for len(e.before) < 250 {
				e.edit()
			}
			shelf := []*lookup.Shelf{nil, data.Shelf()}[seed%2]
			ix := lookup.New(e.kit, catalog, shelf)
			for step := range steps {
				for range 1 + e.IntN(2) {
					e.edit()
				}
				next := ix.Following(e.kit)
				if next == ix {
					followed++
				}
				ix = next
				anew := lookup.New(e.kit, catalog, shelf)
				for range 6 {
					q, most := e.one(queries...), []int{5, 30, 200}[e.IntN(3)]
					require.Equal(t, anew.Find(q, most), ix.Find(q, most), "step %d, %q", step, q)
				}
			}
		})
	}
	require.Greater(t, followed, kits*steps*3/4, "most edits are followed, not answered by a new index")
}

// An edit of what is not searched, or of nothing, leaves all entries as they are.
func TestFollowingAKitThatIsSearchedAlike(t *testing.T) {
	k := manyParts(200)
	ix := lookup.New(k, catalog, nil)
	want := ix.Find("bearing", 50)
	collection("links").Put(&k, fieldkit.Link{ID: "l", For: "p1", With: "p2"})
	require.Same(t, ix, ix.Following(k))
	require.Equal(t, want, ix.Find("bearing", 50))
}

func BenchmarkFindAfterAnEditedPartOf10000(b *testing.B) {
	k := manyParts(10_000)
	ix := lookup.New(k, catalog, nil)
	parts := collection("parts")
	for i := 0; b.Loop(); i++ {
		p := k.Parts.At(i * 10 % 10_000)
		p.Name = fmt.Sprint("long spring hose ", i)
		parts.Put(&k, p)
		ix = ix.Following(k)
		ix.Find("AB-1234 C", 20)
	}
}

func BenchmarkFindAfterADeletedPositionOf5000(b *testing.B) {
	k := manyParts(10_000)
	ix := lookup.New(k, catalog, nil)
	positions := collection("positions")
	for i := 0; b.Loop(); i++ {
		if k.Positions.Len() < 4000 {
			k = manyParts(10_000)
		}
		positions.Remove(&k, k.Positions.At(i*10%k.Positions.Len()).ID)
		ix = ix.Following(k)
		ix.Find("AB-1234 C", 20)
	}
}
