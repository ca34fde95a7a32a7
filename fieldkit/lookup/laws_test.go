package lookup_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
)

// manyParts makes a kit of n parts with numbers that differ in three characters or
// more only by chance, names of few words, donors and positions.
func manyParts(n int) fieldkit.Kit {
	r := rand.New(rand.NewPCG(3, 1))
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var k fieldkit.Kit
	for i := range 40 {
		k.Donors = append(k.Donors, fieldkit.Donor{ID: fmt.Sprint("d", i), Make: pick("Halden", "Orrin"), Model: fmt.Sprint("Model", i), YearFrom: 1970 + i, YearTo: 1973 + i})
	}
	k.Systems = []fieldkit.Assembly{{ID: "s", Name: "front axle"}}
	for i := range n {
		p := fieldkit.Part{
			ID: fmt.Sprint("p", i), Donor: fmt.Sprint("d", r.IntN(40)), Kind: catalog.PartKinds[r.IntN(len(catalog.PartKinds))].ID,
			Name: pick("outer", "inner", "long", "short", "upper", "lower") + " " + pick("wheel", "steering", "axle", "spring", "brake") + " " + pick("bearing", "joint", "seal", "arm", "pump", "hose"),
			Numbers: []fieldkit.Number{
				number(fmt.Sprintf("%c%c-%04d %c", 'A'+rune(r.IntN(26)), 'A'+rune(r.IntN(26)), r.IntN(10_000), 'A'+rune(r.IntN(26))), fieldkit.ReplacementNumber, "Kestrel"),
				number(fmt.Sprintf("%08d", r.IntN(100_000_000)), fieldkit.MakerNumber, "Orrin"),
				number(fmt.Sprintf("%05d-%dRS", 30_000+r.IntN(60_000), r.IntN(3)), fieldkit.StandardNumber, "ISO 355"),
			},
			Measurements: []fieldkit.Measurement{{Name: "bore", Value: value(fmt.Sprintf("%d.%d mm", 10+r.IntN(90), r.IntN(10)))}},
		}
		k.Parts = k.Parts.With(p)
		if i%2 == 0 {
			k.Positions = k.Positions.With(fieldkit.Position{ID: fmt.Sprint("at", i), System: "s", Name: p.Name, Side: []fieldkit.Side{fieldkit.Left, fieldkit.Right}[i/2%2], Part: p.ID, Kind: p.Kind})
		}
	}
	return k
}

// foundAmong reports whether a part is among the first n hits.
func foundAmong(hits []lookup.Hit, id string, n int) bool {
	for _, h := range hits[:min(n, len(hits))] {
		if h.Part == id {
			return true
		}
	}
	return false
}

func TestDamagedNumbersAreStillFound(t *testing.T) {
	k := manyParts(300)
	ix := lookup.New(k, catalog, nil)
	r := rand.New(rand.NewPCG(5, 5))
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
	alike := map[byte]string{'O': "0", '0': "O", 'I': "1", '1': "IL", 'L': "1", 'S': "5", '5': "S", 'B': "8", '8': "B", 'Z': "2", '2': "Z", 'G': "6", '6': "G"}
	damage := []struct {
		name  string
		first int // among the first this many
		do    func(s []byte) []byte
	}{
		{"nothing", 1, func(s []byte) []byte { return s }},
		{"small letters", 1, func(s []byte) []byte { return []byte(strings.ToLower(string(s))) }},
		{"no separators", 1, func(s []byte) []byte {
			return []byte(strings.NewReplacer("-", "", " ", "").Replace(string(s)))
		}},
		{"other separators", 1, func(s []byte) []byte {
			return []byte(strings.NewReplacer("-", " ", " ", ".").Replace(string(s)))
		}},
		{"one unreadable", 5, func(s []byte) []byte { s[r.IntN(len(s))] = '?'; return s }},
		{"two unreadable", 5, func(s []byte) []byte { s[r.IntN(len(s))] = '?'; s[r.IntN(len(s))] = '?'; return s }},
		{"end unreadable", 5, func(s []byte) []byte { return append(s[:len(s)-2], '*') }},
		{"one wrong", 5, func(s []byte) []byte { s[r.IntN(len(s))] = letters[r.IntN(len(letters))]; return s }},
		{"two wrong", 5, func(s []byte) []byte {
			s[r.IntN(len(s))] = letters[r.IntN(len(letters))]
			s[r.IntN(len(s))] = letters[r.IntN(len(letters))]
			return s
		}},
		{"one missing", 5, func(s []byte) []byte { i := r.IntN(len(s)); return append(s[:i], s[i+1:]...) }},
		{"all look-alikes", 5, func(s []byte) []byte {
			for i := range s {
				if a := alike[s[i]]; a != "" {
					s[i] = a[r.IntN(len(a))]
				}
			}
			return s
		}},
	}
	for _, d := range damage {
		t.Run(d.name, func(t *testing.T) {
			for range 200 {
				p := k.Parts.At(r.IntN(k.Parts.Len()))
				n := p.Numbers[r.IntN(len(p.Numbers))]
				q := string(d.do([]byte(n.Value)))
				hits := ix.Find(q, 10)
				checkHits(t, hits, 10)
				require.True(t, foundAmong(hits, p.ID, d.first), "%q for %q of %s: %+v", q, n.Value, p.ID, hits)
			}
		})
	}
}

func TestOrderOfWordsNeverMattersForWhatIsFound(t *testing.T) {
	k := manyParts(200)
	ix := lookup.New(k, catalog, nil)
	for _, words := range [][2]string{{"outer", "bearing"}, {"kestrel", "seal"}, {"left", "hose"}, {"1985", "pump"}} {
		one, two := ix.Find(words[0]+" "+words[1], 200), ix.Find(words[1]+" "+words[0], 200)
		require.NotEmpty(t, one)
		ids := func(hits []lookup.Hit) (list []string) {
			for _, h := range hits {
				list = append(list, h.ID)
			}
			return list
		}
		require.ElementsMatch(t, ids(one), ids(two))
	}
}

func TestTypingOnNeverLosesWhatIsMeant(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	for _, q := range []string{"steering pump", "K-4410 B", "cross kit", "LM501349", "packsaddle 1990 bearing"} {
		want := ix.Find(q, 1)[0].ID
		for end := 2; end <= len(q); end++ {
			found := false
			for _, h := range ix.Find(q[:end], 50) {
				found = found || h.ID == want || h.Kind == lookup.DonorHit
			}
			require.True(t, found, "%q on the way to %q", q[:end], q)
		}
	}
}

func BenchmarkFindAmong10000Parts(b *testing.B) {
	ix := lookup.New(manyParts(10_000), catalog, nil)
	for _, q := range []string{"be", "bearing", "outer wheel bearing left", "AB-1234 C", "AB-12?4 C", "1234567O", "35 mm bearing", "cross kit halden", "*12*", "bering", "26 017 305 steering pump orrin 1979", "12 34 56 78 90 12 34 56"} {
		b.Run(q, func(b *testing.B) {
			for b.Loop() {
				ix.Find(q, 20)
			}
		})
	}
}

func BenchmarkNew10000Parts(b *testing.B) {
	k := manyParts(10_000)
	for b.Loop() {
		lookup.New(k, catalog, nil)
	}
}
