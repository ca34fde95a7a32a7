package interchange_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// editor makes the edits a kit sees: one record added, changed or deleted, one taken
// back, all records replaced by a restore, records of another copy joined in.
type editor struct {
	*rand.Rand
	kit    fieldkit.Kit
	before []fieldkit.Kit
	made   int
}

func collection(name string) fieldkit.Collection {
	c, ok := fieldkit.CollectionNamed(name)
	if !ok {
		panic(name)
	}
	return c
}

func (e *editor) part() fieldkit.Part {
	id := string(rune('a' + e.IntN(12)))
	p := fieldkit.Part{ID: id, Kind: []string{"k", "m"}[e.IntN(2)]}
	for range e.IntN(3) {
		number := bearing(id, "", []string{"6200", "6201", "6202-2RS", "6202 2rs"}[e.IntN(4)], fieldkit.EvidenceOrder[e.IntN(7)]).Numbers[0]
		p.Numbers = append(p.Numbers, number)
	}
	return p
}

func (e *editor) link() fieldkit.Link {
	grades := []fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit, "unheard of"}
	part := func() string { return string(rune('a' + e.IntN(14))) } // two of them only links mention
	l := link(fmt.Sprintf("l%02d", e.IntN(20)), part(), part(), grades[e.IntN(len(grades))], fieldkit.EvidenceOrder[e.IntN(7)])
	if l.Grade == fieldkit.WithChanges {
		l.Changes = []string{fmt.Sprint("change ", e.IntN(3))}
	}
	return l
}

func (e *editor) edit() {
	parts, links := collection("parts"), collection("links")
	e.before = append(e.before, e.kit)
	switch e.IntN(10) {
	case 0, 1:
		parts.PutAt(&e.kit, e.part(), e.IntN(12))
	case 2, 3, 4:
		links.PutAt(&e.kit, e.link(), e.IntN(20))
	case 5:
		parts.Remove(&e.kit, e.part().ID)
	case 6:
		links.Remove(&e.kit, e.link().ID)
	case 7: // taken back
		e.kit = e.before[e.IntN(len(e.before))]
	case 8: // restored: the same records, read anew, in another order
		some := links.All(e.kit)
		e.Shuffle(len(some), func(i, j int) { some[i], some[j] = some[j], some[i] })
		links.SetAll(&e.kit, some)
	case 9: // joined with a copy edited elsewhere
		for _, l := range e.before[e.IntN(len(e.before))].Links.All() {
			links.Put(&e.kit, l)
		}
	}
}

// The graph that goes on from the one before answers as one made of the same lists.
func TestAfterAnyEditsAsMadeAnew(t *testing.T) {
	for seed := range 60 {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			e := &editor{Rand: rand.New(rand.NewPCG(uint64(seed), 3))}
			for len(e.before) < 12 { // enough for an edit to be a small part of it
				e.edit()
			}
			for range 60 {
				for range 1 + e.IntN(2) {
					e.edit()
				}
				got, want := interchange.Of(e.kit.Parts, e.kit.Links), interchange.New(e.kit.Parts.Slice(), e.kit.Links.Slice())
				for id := 'a'; id < 'a'+15; id++ {
					if e.IntN(3) == 0 {
						continue // the next graph has to do without what this one had known
					}
					require.Equal(t, want.StandIns(string(id)), got.StandIns(string(id)))
					require.Equal(t, want.Serves(string(id)), got.Serves(string(id)))
					require.Equal(t, want.ContradictionsAround(string(id)), got.ContradictionsAround(string(id)))
				}
				require.Equal(t, want.Contradictions(), got.Contradictions())
			}
		})
	}
}

// A graph answers for its own lists also after another has gone on from it.
func TestTheGraphBeforeStaysAsItWas(t *testing.T) {
	e := &editor{Rand: rand.New(rand.NewPCG(1, 4))}
	for range 40 {
		e.edit()
	}
	kits, graphs := []fieldkit.Kit{}, []*interchange.Graph{}
	for range 40 {
		e.edit()
		kits, graphs = append(kits, e.kit), append(graphs, interchange.Of(e.kit.Parts, e.kit.Links))
	}
	for i, k := range slices.Backward(kits) {
		want := interchange.New(k.Parts.Slice(), k.Links.Slice())
		for id := 'a'; id < 'a'+14; id++ {
			require.Equal(t, want.StandIns(string(id)), graphs[i].StandIns(string(id)))
		}
	}
}

// The links around a part tell all contradictions a link of it may have to do with.
func TestContradictionsAroundAllPartsAreAll(t *testing.T) {
	eachRandomKit(t, 100, func(t *testing.T, _ *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		g := interchange.New(parts, links)
		var around []interchange.Contradiction
		for _, p := range parts {
			for _, c := range g.ContradictionsAround(p.ID) {
				if !slices.ContainsFunc(around, func(o interchange.Contradiction) bool { return o.Block.ID == c.Block.ID }) {
					around = append(around, c)
				}
			}
		}
		require.ElementsMatch(t, g.Contradictions(), around)
	})
}

func benchmarkEdited(b *testing.B, edit func(k *fieldkit.Kit, i int)) {
	k := fieldkit.Kit{Links: fieldkit.ListOf(clusters(100_000))}
	interchange.Of(k.Parts, k.Links)
	for i := 0; b.Loop(); i++ {
		edit(&k, i)
		interchange.Of(k.Parts, k.Links).StandIns(fmt.Sprintf("p%05d-0", i%10_000))
	}
}

func BenchmarkStandInsAfterAnEditedLinkOf100000(b *testing.B) {
	links := collection("links")
	benchmarkEdited(b, func(k *fieldkit.Kit, i int) {
		l := k.Links.At(i * 10 % 100_000)
		l.Note = fmt.Sprint(i)
		links.Put(k, l)
	})
}

func BenchmarkStandInsAfterADeletedLinkOf100000(b *testing.B) {
	links := collection("links")
	benchmarkEdited(b, func(k *fieldkit.Kit, i int) { links.Remove(k, k.Links.At(i*10%k.Links.Len()).ID) })
}
