package export_test

import (
	"bytes"
	"encoding/csv"
	"flag"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NotEmpty(t, want)
	require.Equal(t, string(want), string(got))
}

func TestGoldenTables(t *testing.T) {
	golden(t, "failures-inch.csv", export.LogCSV(logKit(), fieldkit.Inch))
	golden(t, "failures-metric.csv", export.LogCSV(logKit(), fieldkit.Metric))
	golden(t, "readings-inch.csv", export.ReadingsCSV(logKit(), fieldkit.Inch))
	golden(t, "readings-metric.csv", export.ReadingsCSV(logKit(), fieldkit.Metric))
}

// read reads a table as any program would.
func read(t testing.TB, data []byte) []map[string]string {
	t.Helper()
	require.True(t, bytes.HasPrefix(data, []byte("\xef\xbb\xbf")), "byte order mark")
	rows, err := csv.NewReader(bytes.NewReader(data[3:])).ReadAll()
	require.NoError(t, err)
	var all []map[string]string
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, column := range rows[0] {
			named[column] = row[i]
		}
		all = append(all, named)
	}
	return all
}

func TestLogCSV(t *testing.T) {
	rows := read(t, export.LogCSV(logKit(), fieldkit.Inch))
	require.Len(t, rows, 3)
	require.Equal(t, "'@home: flat tyre", rows[0]["what"], "oldest first")
	require.Equal(t, "", rows[0]["latitude"])
	require.Equal(t, "", rows[0]["hours lost"])
	require.Equal(t, "'-12 km marker", rows[0]["place"])
	second := rows[1]
	require.Equal(t, map[string]string{
		"date": "2026-05-14", "odometer, mi": "40110", "rig": "Bramble", "position": "axle U-joint, left", "part": "cross, 1-3/8 in",
		"place": "Sevenfold Grade, the ledge", "latitude": "41.6551", "longitude": "-118.433801",
		"what": "cross snapped \"clean\"\nunder load", "how": "broken", "why": "'=dry since the build", "conditions": "'+ full lock", "reading before": "0.014 in (0.35 mm)", "fix": "new joint <on the tailgate> & grease",
		"used": "1 × cross, 1-3/8 in; 2 × brake fluid; DOT 4; 1 × ball joint press; 1 × gone", "hours lost": "2.17",
	}, second)
	require.Equal(t, "no such rig", rows[2]["rig"], "what is not there keeps its key")
	require.Equal(t, "-0.000005", rows[2]["latitude"])
	metric := read(t, export.LogCSV(logKit(), fieldkit.Metric))
	require.Equal(t, "64551", metric[1]["odometer, km"]) // 40110 × 1.609344 = 64550.79
}

func TestReadingsCSV(t *testing.T) {
	rows := read(t, export.ReadingsCSV(logKit(), fieldkit.Inch))
	require.Len(t, rows, 5)
	require.Equal(t, "2025-01-02", rows[0]["date"])
	require.Equal(t, "310", rows[0]["number"]) // 45 × 6.894757 = 310.26
	require.Equal(t, "kPa", rows[0]["unit"])
	require.Equal(t, map[string]string{"date": "2026-05-14", "odometer, mi": "", "engine hours": "", "rig": "Bramble", "position": "axle U-joint, left",
		"reading": "cap diameter", "value": "1-3/8 in (34.93 mm)", "number": "34.925", "unit": "mm", "how": "caliper", "note": "'+ worn"}, rows[1])
	require.Equal(t, "0.35", rows[2]["number"])
	require.Equal(t, "'=brown", rows[3]["value"])
	require.Equal(t, "", rows[3]["number"])
	require.Equal(t, "28", rows[4]["number"])
	require.Equal(t, "", rows[4]["unit"])
}

// RFC 4180, section 2: records end in CRLF (1), the header has as many fields as
// the records (3, 4), fields with line breaks, quotes or commas are quoted (6),
// quotes inside are doubled (7).
func TestTablesFollowRFC4180(t *testing.T) {
	for _, data := range [][]byte{export.LogCSV(logKit(), fieldkit.Inch), export.ReadingsCSV(logKit(), fieldkit.Metric), export.LogCSV(fieldkit.Kit{}, fieldkit.Inch)} {
		text := string(data)
		require.True(t, strings.HasSuffix(text, "\r\n"))
		require.Equal(t, strings.Count(text, "\n"), strings.Count(text, "\r\n"), "no bare line feed")
		require.Equal(t, strings.Count(text, "\r"), strings.Count(text, "\r\n"), "no bare carriage return")
		require.True(t, utf8.ValidString(text))
	}
	text := string(export.LogCSV(logKit(), fieldkit.Inch))
	require.Contains(t, text, "\"cross snapped \"\"clean\"\"\r\nunder load\"")
	require.Contains(t, text, `,"axle U-joint, left",`)
}

// What OWASP ("CSV Injection") lists as the start of a formula, with and without
// blanks before it, never starts a cell.
func TestFormulas(t *testing.T) {
	for _, text := range []string{
		`=HYPERLINK("http://example.invalid/?"&A1,"click")`, `=cmd|' /C calc'!A0`, `+1+1`, `-1+1`, `@SUM(A1:A9)`,
		"\t=1+1", "\r=1+1", "\n=1+1", " =1+1", "\u00a0=1+1", `＝1+1`, `＋1`, `－1`, `＠A1`, `'=1+1`, `"=1+1"`, `;=1+1`, "\ufeff=1+1", "\x00=1+1",
	} {
		kit := logKit()
		kit.Rigs[0].Name, kit.Positions.Ref(0).Name, kit.Parts.Ref(0).Name = text, text, text
		kit.Failures = fieldkit.ListOf(kit.Failures.Slice()[:1])
		f := kit.Failures.Ref(0)
		f.What, f.Why, f.Fix, f.Place.Text = text, text, text, text
		f.Used = []fieldkit.Item{{Type: fieldkit.ToolItem, Item: text, Count: 1}}
		kit.Inspections = fieldkit.ListOf([]fieldkit.Inspection{{ID: text, Position: text, Name: text, Value: fieldkit.Value{Dim: fieldkit.DimText, Text: text}, How: text, Note: text}})
		for _, row := range append(read(t, export.LogCSV(kit, fieldkit.Inch)), read(t, export.ReadingsCSV(kit, fieldkit.Inch))...) {
			for column, cell := range row {
				if column == "longitude" {
					continue // a number of our own
				}
				trimmed := strings.TrimSpace(cell)
				require.False(t, trimmed != "" && strings.ContainsAny(trimmed[:1], "=+-@"), "%s: %q", column, cell)
				for _, wide := range []string{"＝", "＋", "－", "＠"} {
					require.False(t, strings.HasPrefix(trimmed, wide), "%s: %q", column, cell)
				}
			}
		}
	}
}

// Programs that divide a line at semicolons or tabs, and at every line break, find no
// formula at the beginning of a cell either, and list lines in notes stay readable.
func TestFormulasBehindOtherSeparators(t *testing.T) {
	for _, text := range []string{`x;=HYPERLINK("http://example.invalid")`, "x;;+1", "x; @A1", "x\t=1+1", "x\n=1+1", "x\r\n=1+1", "x\n\n-1", "x;\u00a0＝1", "x;\u200b=1", "\ufeff=1+1", ";=1", `x;"=1`, `x; ""=1`, "x\n\"+1", "x;\u3164=1"} {
		kit := logKit()
		kit.Rigs[0].Name = text
		kit.Failures = fieldkit.ListOf(kit.Failures.Slice()[:1])
		f := kit.Failures.Ref(0)
		f.What, f.Why, f.Fix = text, text, text
		f.Place = fieldkit.Place{Text: text} // no position: figures of our own begin with a minus
		file := strings.TrimPrefix(string(export.LogCSV(kit, fieldkit.Inch)), "\ufeff")
		for _, piece := range strings.FieldsFunc(file, func(r rune) bool { return strings.ContainsRune(";\t\r\n", r) }) {
			start := strings.TrimLeft(piece, " \"\u00a0\u200b\ufeff\u3164")
			require.False(t, start != "" && strings.ContainsAny(start[:1], "=+-@") || strings.HasPrefix(start, "＝"), "%q: %q", text, piece)
		}
		for _, row := range read(t, []byte("\ufeff"+file)) {
			require.Equal(t, kept(text), original(row["what"]))
		}
	}
	kit := logKit()
	kit.Failures.Ref(0).What = "bled; then drove on, -5 mm of pad left: it's fine"
	require.Contains(t, string(export.LogCSV(kit, fieldkit.Inch)), "bled; then drove on, -5 mm of pad left: it's fine")
}

// original takes away what the table adds to a text.
func original(cell string) string { return added.ReplaceAllString(cell, "$1") }

var added = regexp.MustCompile("(^|[;\t\n])'")

// kept is what survives of any text: one kind of line break, no control
// characters, no broken UTF-8.
func kept(text string) string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.ToValidUTF8(text, "\ufffd"))
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, text)
}

// FuzzText exports any text as table and waypoint: it comes back, alone in its
// cell and its element, and both files stay well formed.
func FuzzText(f *testing.F) {
	for _, s := range []string{"", "snapped", "a,b", `"`, `""`, "a\r\nb\rc\nd", "=1", "'", "''=", "]]>", "<b>&amp;</b>", "\x00\x01\ufffe", "\xff\xfe",
		"größer 1-3/8″ ½", "\u202egnp.exe", "<!--", "&#0;", strings.Repeat("x", 200), "\ufeff", "\u2028", "a;'b", "a;=b\n'c\t-d;;'", "\U0010ffff", "a\n\nb", "  x  "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		kit := logKit()
		kit.Name = text
		kit.Failures = fieldkit.ListOf(kit.Failures.Slice()[:1])
		kit.Failures.Ref(0).What, kit.Failures.Ref(0).Fix = text, text
		rows := read(t, export.LogCSV(kit, fieldkit.Inch))
		require.Len(t, rows, 1)
		require.Equal(t, kept(text), original(rows[0]["what"]))
		require.Equal(t, "'=dry since the build", rows[0]["why"])
		require.Equal(t, kept(text), original(rows[0]["fix"]))
		g := readGPX(t, export.LogGPX(kit, text))
		require.Len(t, g.Waypoints, 1)
		require.Equal(t, kept(text), g.Metadata.Name)
		require.Equal(t, kept(text), g.Creator)
		require.Contains(t, g.Waypoints[0].Desc, kept(text))
		require.NotContains(t, g.Waypoints[0].Name, "\n")
		require.LessOrEqual(t, utf8.RuneCountInString(g.Waypoints[0].Name), 60)
	})
}
