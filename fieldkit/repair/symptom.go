package repair

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"trailfieldkit/fieldkit/order"
)

// Match is a repair that a description points to.
type Match struct {
	Guide Guide
	Score float64  // higher is closer; comparable within one search only
	Why   []string // the symptoms that matched, the closest first
}

// maxQueryWords bounds a description; nobody types more at the roadside.
const maxQueryWords = 40

// BySymptom ranks the repairs by how much of a description in plain words they
// cover; words few repairs mention count for more. Repairs that share no word
// with it are left out, and an empty description finds nothing.
func BySymptom(guides []Guide, query string) []Match {
	asked := tokens(query)
	if len(asked) > maxQueryWords {
		asked = asked[:maxQueryWords]
	}
	mentions := map[string]int{}
	for _, g := range guides {
		for _, t := range tokens(strings.Join(append([]string{g.Title, g.Summary}, g.Symptoms...), " ")) {
			mentions[t]++
		}
	}
	rarity := func(t string) float64 { return math.Log(1 + float64(len(guides))/float64(max(mentions[t], 1))) }

	var matches []Match
	for _, g := range guides {
		if m := match(g, asked, rarity); m.Score > 0 {
			matches = append(matches, m)
		}
	}
	order.By(matches, func(a, b Match) int {
		return cmp.Or(cmp.Compare(b.Score, a.Score), strings.Compare(a.Guide.ID, b.Guide.ID))
	})
	return matches
}

// match adds what the title and summary share with the description to what its
// symptoms share, the closest symptom counting most.
func match(g Guide, asked []string, rarity func(string) float64) Match {
	shared := func(text string) (sum float64) {
		has := tokens(text)
		for _, t := range asked {
			if slices.Contains(has, t) {
				sum += rarity(t)
			}
		}
		return sum
	}
	type hit struct {
		symptom string
		score   float64
	}
	var hits []hit
	for _, s := range g.Symptoms {
		if score := shared(s); score > 0 {
			hits = append(hits, hit{s, score})
		}
	}
	order.By(hits, func(a, b hit) int { return cmp.Compare(b.score, a.score) })
	m := Match{Guide: g, Score: shared(g.Title) + shared(g.Summary)/2}
	for i, h := range hits {
		m.Score += h.score / float64(i+1)
		m.Why = append(m.Why, h.symptom)
	}
	return m
}

// tokens splits text into folded words without fillers, each once; words the
// trade uses alike become one.
func tokens(text string) []string {
	var list []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if len(w) < 2 || slices.Contains(fillers, w) {
			continue
		}
		w = stem(w)
		if first, ok := sameAs[w]; ok {
			w = first
		}
		if !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// stem takes off the endings that plain descriptions vary in.
func stem(w string) string {
	for _, end := range []string{"ing", "ed", "es", "s"} {
		if short, ok := strings.CutSuffix(w, end); ok && len(short) >= 3 && !strings.HasSuffix(short, "s") {
			return short
		}
	}
	return strings.TrimSuffix(w, "e")
}

var fillers = strings.Fields("the this and or is it its in on of to at my has have when with from for no not but there that than you your are was by as an some after while be can me we")

// alike lists words that people use for the same thing, a row each.
var alike = []string{
	"noise sound hear",
	"whine howl moan hum groan",
	"squeal squeak screech scream",
	"grind growl rumble rough scrape",
	"click tick snap",
	"clunk knock bang clank thump",
	"shake shudder vibrate vibration wobble shimmy judder",
	"leak drip dripping puddle wet weep spray",
	"heavy stiff hard",
	"loose play slop sloppy wander",
	"broken broke snapped torn tore burst split sheared shear",
	"tyre tire",
	"rotor disc disk",
	"joint ujoint universal",
	"hot heat smoke smoking burn",
	"spongy soft mushy",
	"sink sinks sank floor",
}

// sameAs maps each word of alike, stemmed, to the first of its row.
var sameAs = func() map[string]string {
	first := map[string]string{}
	for _, row := range alike {
		row := strings.Fields(row)
		for _, w := range row {
			first[stem(w)] = stem(row[0])
		}
	}
	return first
}()
