package plainpage_test

import (
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/findings"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/plainpage"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/spares"
)

var update = flag.Bool("update", false, "rewrite the golden files")

var (
	keptAt = fieldkit.Moment{Time: time.Date(2026, 12, 5, 16, 20, 0, 0, time.UTC)}
	frame  = plainpage.Frame{Base: "/kit/", KitName: "Hobnail and Wicket", Demo: true}
)

// demoPages are one page of each kind.
func demoPages(t testing.TB) map[string]plainpage.Page {
	t.Helper()
	k, cat := data.DemoKit(), data.Catalog()
	card, err := counter.CardFor(k, cat, interchange.New(k.Parts.Slice(), k.Links.Slice()), "pads-front", "hobnail-front-brake-pads")
	require.NoError(t, err)
	trip, ok := k.Trip("2026-12-widows-rib")
	require.True(t, ok)
	pack := fieldkit.Pack{ID: "p", Trip: trip.ID}
	for i, s := range k.Spares.Slice()[:4] {
		pack.Lines = append(pack.Lines, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: s.Part, Count: 1 + i, Bin: s.Bin, Packed: i%2 == 0})
	}
	run, ok := fieldkit.Find(k.Runs, "run-wicket-u-joint")
	require.True(t, ok)
	guide, ok := repair.Named(data.Guides(), run.Guide)
	require.True(t, ok)
	pages := map[string]plainpage.Page{
		"card":      plainpage.Card(card, "counter/card?part=pads-front&position=hobnail-front-brake-pads", fieldkit.Inch),
		"packing":   plainpage.PackingList(spares.SheetOf(k, cat, pack), spares.Shopping(k, cat, pack), "pack/trip?id="+trip.ID, fieldkit.Inch),
		"repair":    plainpage.RepairUnderWay(k, cat, guide, run, "repair/run?id="+run.ID, fieldkit.Metric),
		"emergency": plainpage.Emergency(k.Rigs, fieldkit.Inch),
	}
	past, ok := k.Trip("2024-05-widows-rib")
	require.True(t, ok)
	pages["trip"] = plainpage.TripReport(findings.ReportOf(k, cat, past, fieldkit.Date{Year: 2026, Month: 12, Day: 5}, fieldkit.Inch), "log/trip?id="+past.ID, fieldkit.Inch)
	pages["index"] = plainpage.Index(frame.Base, []plainpage.Page{pages["emergency"], pages["repair"], pages["packing"], pages["card"]})
	return pages
}

func TestGolden(t *testing.T) {
	for name, page := range demoPages(t) {
		t.Run(name, func(t *testing.T) {
			got := frame.HTML(page, keptAt)
			file := filepath.Join("testdata", name+".html")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err, "write it with -update")
			assert.Equal(t, string(want), got)
		})
	}
}

// What a page may be made of: these elements, with these attributes, and nothing else.
var allowed = regexp.MustCompile(`^<(?:!doctype html|html lang="en" data-theme="(?:daylight|night)"|meta charset="utf-8"|` +
	`meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]+'; base-uri 'none'; form-action 'none'"|` +
	`meta name="viewport" content="width=device-width, initial-scale=1"|meta name="referrer" content="no-referrer"|` +
	`/?(?:head|title|style|body|header|section|h1|h2|p|ul|ol|li|b|span|div)|main class="plain-page"|/main|nav aria-label="Plain pages"|/nav|/html|` +
	`a href="/kit/[^"<>]*"|/a|(?:p|ul|ol|li|span|div) class="[a-z]+")>$`)

var tag = regexp.MustCompile(`<[^>]*>?`)

func tagsOf(html string) []string {
	begin, end := strings.Index(html, "<style>")+len("<style>"), strings.Index(html, "</style>")
	return tag.FindAllString(html[:begin]+html[end:], -1)
}

func TestPagesHoldNothingThatRunsOrLoads(t *testing.T) {
	for name, page := range demoPages(t) {
		for _, one := range tagsOf(frame.HTML(page, keptAt)) {
			assert.Regexp(t, allowed, one, name)
		}
	}
	assert.NotRegexp(t, `url\(|@import|expression|<`, plainpage.Sheet)
}

// hostile are texts that try to leave their place.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onmouseover='alert(1)`, `</main><script src=//evil.example></script>`,
	`</style><style>*{display:none}`, `<!--`, `-->`, `]]>`, "\x00<b\x00>", "javascript:alert(1)", "<svg/onload=alert(1)>", "\xff\xfe<i>", "&lt;script&gt;", "<!--plain list-->",
	"\u202e<u>", `<a href="javascript:alert(1)">`, "<iframe srcdoc=x>", "<base href=//evil.example>", "`${alert(1)}`",
}

// Whatever the texts of a kit are, the page has the same elements.
func TestTextsNeverBecomeElements(t *testing.T) {
	build := func(with string) []plainpage.Page {
		var card counter.Card
		fillTexts(reflect.ValueOf(&card).Elem(), with, 0)
		var sheet spares.Sheet
		fillTexts(reflect.ValueOf(&sheet).Elem(), with, 0)
		var needs []spares.Need
		fillTexts(reflect.ValueOf(&needs).Elem(), with, 0)
		var rigs []fieldkit.Rig
		fillTexts(reflect.ValueOf(&rigs).Elem(), with, 0)
		guide, ok := repair.Named(data.Guides(), "u-joint-axle")
		require.True(t, ok)
		rig := fieldkit.Rig{ID: "r", Name: with}
		run := repair.Start(guide, rig, "", "run", keptAt)
		kit := fieldkit.Kit{Rigs: []fieldkit.Rig{rig}, StepNotes: []fieldkit.StepNote{
			{ID: fieldkit.NoteID(guide.ID, run.Step), Guide: guide.ID, Step: run.Step, Text: "at it: " + with}, {ID: "gone", Guide: guide.ID, Step: with, Text: with}}}
		pages := []plainpage.Page{
			plainpage.Card(card, "counter/card?part="+with, fieldkit.Inch),
			plainpage.PackingList(sheet, needs, "pack/trip?id="+with, fieldkit.Inch),
			plainpage.RepairUnderWay(kit, data.Catalog(), guide, run, "repair/run?id="+with, fieldkit.Inch),
			plainpage.Emergency(rigs, fieldkit.Inch),
		}
		return append(pages, plainpage.Index("/kit/", pages))
	}
	shape := func(with string) []string {
		var all []string
		for _, p := range build(with) {
			for _, one := range tagsOf(plainpage.Frame{Base: "/kit/", KitName: with}.HTML(p, keptAt)) {
				require.Regexp(t, allowed, one, "with %q", with)
				if strings.HasPrefix(one, "<a ") {
					one = "<a>"
				}
				all = append(all, one)
			}
		}
		return all
	}
	plain := shape("x")
	require.Greater(t, len(plain), 200)
	for _, text := range hostile {
		assert.Equal(t, plain, shape(text), "with %q", text)
	}
}

// fillTexts puts a text into every string a value holds; lists get one entry.
func fillTexts(v reflect.Value, with string, depth int) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(with)
	case reflect.Slice:
		if depth < 6 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			fillTexts(v.Index(0), with, depth+1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				fillTexts(v.Field(i), with, depth+1)
			}
		}
	}
}

// A page that says the same has the same mark whenever it is kept; any other text,
// theme or base another one.
func TestMark(t *testing.T) {
	pages := demoPages(t)
	seen := map[string]string{}
	for name, page := range pages {
		mark := frame.Mark(page)
		assert.Equal(t, mark, frame.Mark(page))
		assert.NotContains(t, seen, mark, name)
		seen[mark] = name
	}
	night := frame
	night.Night = true
	assert.NotEqual(t, frame.Mark(pages["card"]), night.Mark(pages["card"]))
}

func TestPath(t *testing.T) {
	pages := demoPages(t)
	assert.Equal(t, "plain/counter/card?part=pads-front&position=hobnail-front-brake-pads", pages["card"].Path())
	assert.Equal(t, "plain/emergency", pages["emergency"].Path())
	assert.Equal(t, "plain/", pages["index"].Path())
}

// An own repair has its cautions in front, its notes, and no verdict that nobody gave; a
// torque written at a part stands before the computed one.
func TestRepairOfOurOwnAndOfOurParts(t *testing.T) {
	k := data.DemoKit()
	own := k.OwnRepairs[0]
	guides := repair.WithOwn(data.Guides(), k)
	g, ok := repair.Named(guides, own.ID)
	require.True(t, ok)
	k.StepNotes = append(k.StepNotes, fieldkit.StepNote{ID: fieldkit.NoteID(g.ID, g.Steps[0].ID), Guide: g.ID, Step: g.Steps[0].ID, Text: "mind the stones"})
	html := frame.HTML(plainpage.RepairUnderWay(k, data.Catalog(), g, repair.Start(g, k.Rigs[0], "", "r", keptAt), "repair/run?id=r", fieldkit.Inch), keptAt)
	assert.Contains(t, html, "<b>Caution</b>")
	assert.Contains(t, html, "Your note: mind the stones")
	assert.Contains(t, html, "Until you know, leave it standing.")
	caution, step := strings.Index(html, own.Steps[0].Caution), strings.Index(html, own.Steps[0].Text)
	assert.Less(t, caution, step)
	assert.Positive(t, caution)

	joint, _ := repair.Named(guides, "u-joint-axle")
	at, _ := k.Position("wicket-axle-u-joint-left")
	part, ok := k.Part(at.Part)
	require.True(t, ok)
	value, err := fieldkit.ParseValue("250 N·m")
	require.NoError(t, err)
	part.Measurements = append(slices.Clone(part.Measurements), fieldkit.Measurement{Name: repair.TorqueName("axle nut"), Value: value, How: "the maker's sheet"})
	parts := k.Parts.Slice()
	parts[slices.IndexFunc(parts, func(p fieldkit.Part) bool { return p.ID == part.ID })] = part
	k.Parts = fieldkit.ListOf(parts)
	rig, _ := k.RigOf(at)
	html = frame.HTML(plainpage.RepairUnderWay(k, data.Catalog(), joint, repair.Start(joint, rig, at.ID, "r", keptAt), "repair/run?id=r", fieldkit.Metric), keptAt)
	assert.Contains(t, html, "as written at "+part.Name)
}
