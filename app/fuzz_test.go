package app

import (
	"encoding/base64"
	"maps"
	"net/url"
	"path"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/passon"
)

// rubbish are texts each field and address begins from.
var rubbish = []string{"", "Front axle", "1-3/8", "55,240 mi", "2026-02-31", "12 EUR", "1e308 km", "NaN", "∞", "-1", "a\u202eb", "a\x00b", "\xff", "<script>", "=1+1",
	"0", "99999999999999999999", "１２", "К-4410", "n1 n2", "../..?x#y", "%00%zz", "none"}

// FuzzForms types one text into a field of one form and another into all the rest. What
// the form accepts, the kit may keep: nothing is found wrong with it that was not
// before.
func FuzzForms(f *testing.F) {
	k, cat := data.DemoKit(), data.Catalog()
	for i, text := range rubbish {
		f.Add(text, rubbish[(i+7)%len(rubbish)], uint8(i))
	}
	f.Fuzz(func(t *testing.T, text, rest string, which uint8) {
		type beginning struct {
			fields map[string]string
			read   func(*form) (fieldkit.Record, bool)
		}
		var start beginning
		switch which % 4 { // one at a time: a run of the fuzzer is then many, not few
		case 0:
			start = beginning{partFields(k.Parts.At(int(which)%k.Parts.Len()), true, fieldkit.Position{}, fieldkit.Inch), func(f *form) (fieldkit.Record, bool) {
				return pair(reading(k, fieldkit.Inch).read(f, k.Parts.At(int(which)%k.Parts.Len())))
			}}
		case 1:
			start = beginning{positionFields(k.Positions.At(int(which)%k.Positions.Len()), true, fieldkit.Metric), func(f *form) (fieldkit.Record, bool) {
				return pair(readPosition(f, k.Positions.At(int(which)%k.Positions.Len()), k, fieldkit.Metric, testDay))
			}}
		case 2:
			start = beginning{map[string]string{"make": "", "model": "", "yearFrom": "", "yearTo": "", "engine": "", "axle": "", "vin": "", "note": "", "drive": "", "wheels": ""}, func(f *form) (fieldkit.Record, bool) {
				return pair(readDonor(f, fieldkit.Donor{ID: "new"}))
			}}
		default:
			start = beginning{map[string]string{"name": "", "odometer": "", "odometerOn": "", "tyre": "", "oversize": "", "note": "", "papers": "", "figures": "", "contacts": ""}, func(f *form) (fieldkit.Record, bool) {
				return pair(readRig(f, fieldkit.Rig{ID: "new"}, cat, fieldkit.Inch, testDay))
			}}
		}
		typed := map[string]string{}
		n := 0
		for _, name := range slices.Sorted(maps.Keys(start.fields)) {
			was := start.fields[name]
			if picked[path.Base(name)] {
				continue
			}
			if n++; was == "" || n%3 == int(which)%3 {
				typed[name] = rest
			}
			if n == int(which)%(len(start.fields)+1) {
				typed[name] = text
			}
		}
		form := onForm(start.fields, typed)
		r, ok := start.read(form)
		if ok {
			require.Empty(t, kitfile.CheckRecord(k, r), "%#v", typed)
		}
		for name := range typed {
			require.Equal(t, typed[name], form.get(name), "what was typed stays")
		}
	})
}

// picked are the fields that are chosen from a list; nothing can be typed into them.
var picked = map[string]bool{"kind": true, "how": true, "parent": true, "system": true, "side": true, "part": true, "donor": true, "issuer": true, "worn": true,
	"drive": true, "wheels": true, "rearWheels": true, baseField: true, "id": true, numberRows: true, measureRows: true, alikeRows: true}

func pair[T fieldkit.Record](r T, ok bool) (fieldkit.Record, bool) { return r, ok }

// FuzzDraft opens a form and a roll of photos on whatever the device kept.
func FuzzDraft(f *testing.F) {
	for _, text := range append([]string{`{"name":"x"}`, `{"name":7}`, `[]`, `null`, `{"":""}`, `{"note":"\u0000"}`}, rubbish...) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		onDevice(t)
		textsInMemory[draftKey("bin")] = text
		form := newForm("bin", map[string]string{"name": "Drawer"})
		form.short()
		form.rows("name")
		placeOf(form)
		form.startOver()
		require.Equal(t, "Drawer", form.get("name"))
		textsInMemory["photos"] = base64.StdEncoding.EncodeToString([]byte(text))
		_ = readPrefs()
		_ = turnOf(text)
	})
}

// FuzzAddress asks every screen for what an address may name.
func FuzzAddress(f *testing.F) {
	// A part of the demo kit and of the repairs: an address that names none of it takes
	// the same way through all of it, at a fifth of the time.
	k, cat, guides, book := data.DemoKit(), data.Catalog(), data.Guides()[:4], data.Handbook()
	k.Positions, k.Failures, k.Inspections = fieldkit.ListOf(k.Positions.Slice()[:12]), fieldkit.ListOf(k.Failures.Slice()[:3]), fieldkit.ListOf(k.Inspections.Slice()[:3])
	for _, text := range rubbish {
		f.Add(text)
	}
	f.Add("hobnail")
	f.Add(k.Positions.At(0).ID)
	f.Add(k.Parts.At(0).ID)
	f.Fuzz(func(t *testing.T, id string) {
		parsed, err := url.Parse(link("/rig", "rig", id))
		require.NoError(t, err)
		require.Equal(t, id, parsed.Query().Get("rig"), "an address names what it was made of")
		viewRig(k, cat, id)
		viewGaps(k, cat, id)
		viewPosition(k, cat, kept.interchange(), id)
		viewLog(k, fieldkit.Inch, id, rowsAtOnce)
		viewStock(k, id, fieldkit.Inch)
		viewDonor(k, id)
		viewPartEdit(k, id, id)
		viewSystems(k, id)
		viewRepair(k, guides, id, id)
		viewGuide(k, cat, guides, id, id, id)
		viewRun(k, guides, id, fieldkit.Moment{})
		viewStore(k, cat, id, id)
		viewFit(k, cat, id, id, map[string]string{id: id}, fieldkit.Inch)
		viewYard(k, cat, id, id, map[string]string{id: id})
		viewCosts(k, cat, id)
		viewLimp(k, cat, id, id)
		viewPass(k, "https://kit.example/take#", id, id, id)
		viewPass(k, "https://kit.example/take#", "", "", id)
		viewTorque(onForm(nil, map[string]string{"thread": id, "grade": "8", "percent": id, "lever": id, "grip": id}), book, fieldkit.Metric)
		_, _ = passon.Decode(id)
	})
}
