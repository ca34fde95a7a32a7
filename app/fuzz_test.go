package app

import (
	"encoding/base64"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"
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

// formToFuzz is a form: what it begins with, and what is made of it.
type formToFuzz struct {
	fields map[string]string
	read   func(*form) (fieldkit.Record, bool)
}

// formsToFuzz are the forms that make a record, each on one record of the kit.
func formsToFuzz(k fieldkit.Kit, cat fieldkit.Catalog, which int) []func() formToFuzz {
	const first = fieldkit.Inch
	part, position, rig := k.Parts.At(which%k.Parts.Len()), k.Positions.At(which%k.Positions.Len()), k.Rigs[which%len(k.Rigs)]
	trip := k.Trips[which%len(k.Trips)]
	stock := func(what, id string) func() formToFuzz {
		return func() formToFuzz {
			return formToFuzz{stockFields(k, what, id, first), func(f *form) (fieldkit.Record, bool) {
				return (&stockEditScreen{form: f, kit: k, what: what, id: id}).read()
			}}
		}
	}
	serviced := func(s fieldkit.Service) fieldkit.Rig {
		rig.Services = append(slices.Clone(rig.Services), s)
		return rig
	}
	return []func() formToFuzz{
		func() formToFuzz {
			return formToFuzz{partFields(part, true, fieldkit.Position{}, first), func(f *form) (fieldkit.Record, bool) { return pair(reading(k, first).read(f, part)) }}
		},
		func() formToFuzz {
			return formToFuzz{positionFields(position, true, fieldkit.Metric), func(f *form) (fieldkit.Record, bool) {
				return pair(readPosition(f, position, k, fieldkit.Metric, testDay))
			}}
		},
		func() formToFuzz {
			return formToFuzz{blanks(donorFields(fieldkit.Donor{}), "make", "model", "yearFrom", "yearTo", "engine", "axle", "vin", "note"), func(f *form) (fieldkit.Record, bool) {
				return pair(readDonor(f, fieldkit.Donor{ID: "new"}))
			}}
		},
		func() formToFuzz {
			return formToFuzz{blanks(nil, "name", "odometer", "odometerOn", "tyre", "oversize", "note", "papers", "figures", "contacts"), func(f *form) (fieldkit.Record, bool) {
				return pair(readRig(f, fieldkit.Rig{ID: "new"}, cat, first, testDay))
			}}
		},
		func() formToFuzz {
			failure := k.Failures.At(which % k.Failures.Len())
			return formToFuzz{blanks(failureFields(k, failure, true, "", first, testDay), "lost", "before", "place"), func(f *form) (fieldkit.Record, bool) {
				return pair((&failureScreen{form: f, photos: &photoRoll{}, kit: k, id: failure.ID}).read())
			}}
		},
		func() formToFuzz {
			r := k.Inspections.At(which % k.Inspections.Len())
			return formToFuzz{blanks(readingFields(k, cat, r, true, "", first, testDay), "engineHours", "note"), func(f *form) (fieldkit.Record, bool) {
				return pair((&readingScreen{form: f, kit: k, id: r.ID}).read())
			}}
		},
		func() formToFuzz {
			return formToFuzz{tripFields(k, trip, true, first), func(f *form) (fieldkit.Record, bool) {
				return pair((&tripEditScreen{form: f, kit: k, id: trip.ID}).read())
			}}
		},
		stock(stockSpares, k.Spares.At(which%k.Spares.Len()).ID),
		stock(stockConsumables, k.Consumables[which%len(k.Consumables)].ID),
		stock(stockTools, k.Tools[which%len(k.Tools)].ID),
		stock(stockBins, k.Bins[which%len(k.Bins)].ID),
		func() formToFuzz {
			return formToFuzz{blanks(visitFields(k.Visits[0], true, k, "", "", testDay), "name", "note"), func(f *form) (fieldkit.Record, bool) {
				return pair((&visitScreen{form: f, kit: k, id: k.Visits[0].ID}).read())
			}}
		},
		func() formToFuzz {
			return formToFuzz{blanks(nil, "name", "every", "hours", "months", "crossings", "note"), func(f *form) (fieldkit.Record, bool) {
				s, ok := readService(f, fieldkit.Service{ID: "new"}, first)
				return serviced(s), ok
			}}
		},
		func() formToFuzz {
			return formToFuzz{blanks(doneFields(rig, first, testDay), "hours", "note"), func(f *form) (fieldkit.Record, bool) {
				d, ok := readDone(f, first, testDay)
				return serviced(fieldkit.Service{ID: "new", Name: "oil", Months: 6, Done: []fieldkit.ServiceDone{d}}), ok
			}}
		},
		func() formToFuzz {
			return formToFuzz{costFields(trip, position.ID), func(f *form) (fieldkit.Record, bool) { return pair(readCost(f, trip, position.ID)) }}
		},
		func() formToFuzz {
			return formToFuzz{blanks(countingFields(trip), "hourWorth", "recovery", "crossings", "overload", "engineHours"), func(f *form) (fieldkit.Record, bool) {
				return pair(readCounting(f, trip, k.Currency))
			}}
		},
		func() formToFuzz {
			return formToFuzz{crewFields(trip, first), func(f *form) (fieldkit.Record, bool) { return pair(readCrew(f, trip, first)) }}
		},
		func() formToFuzz {
			return formToFuzz{drivelineFields(rig, first), func(f *form) (fieldkit.Record, bool) { return pair(readDriveline(f, rig, first)) }}
		},
		func() formToFuzz {
			kind := cat.PartKinds[which%len(cat.PartKinds)]
			return formToFuzz{priorFields(kind.Prior, false, first), func(f *form) (fieldkit.Record, bool) { return pair(readPrior(f, kind.Prior, kind, first)) }}
		},
		func() formToFuzz {
			own := k.OwnRepairs[0]
			return formToFuzz{blanks(ownRepairFields(own, true), "hands", "time"), func(f *form) (fieldkit.Record, bool) {
				return pair((&ownRepairScreen{form: f, kit: k, id: own.ID}).read())
			}}
		},
		func() formToFuzz {
			l := k.Links.At(which % k.Links.Len())
			wanted, _ := k.Part(l.For)
			return formToFuzz{linkFields(l, true, l.For, testDay), func(f *form) (fieldkit.Record, bool) {
				read, _, ok := (&linkEditScreen{form: f, kit: k, cat: cat, id: l.ID, part: wanted}).read()
				return read, ok
			}}
		},
	}
}

// blanks adds fields that a form begins with nothing in.
func blanks(fields map[string]string, names ...string) map[string]string {
	all := map[string]string{}
	for _, name := range names {
		all[name] = ""
	}
	maps.Copy(all, fields)
	return all
}

// FuzzForms types one text into a field of one form and another into all the rest. What
// the form accepts, the kit may keep: nothing is found wrong with it that was not
// before.
func FuzzForms(f *testing.F) {
	k, cat := data.DemoKit(), data.Catalog()
	most := uint8(len(formsToFuzz(k, cat, 0)))
	for i := range most {
		for j, text := range rubbish {
			if (int(i)+j)%4 == 0 {
				f.Add(text, rubbish[(j+7)%len(rubbish)], i)
			}
		}
		for third := range uint8(3) {
			f.Add("a", "b\nc", i+most*third)
			f.Add("b\nc", "2", i+most*third)
		}
	}
	f.Fuzz(func(t *testing.T, text, rest string, which uint8) {
		forms := formsToFuzz(k, cat, int(which))
		start := forms[int(which)%len(forms)]() // one at a time: a run of the fuzzer is then many, not few
		typed := map[string]string{}
		n := 0
		for _, name := range slices.Sorted(maps.Keys(start.fields)) {
			was := start.fields[name]
			if picked[path.Base(name)] || strings.HasPrefix(name, "used/") {
				continue
			}
			if n++; was == "" || n%3 == int(which)/len(forms)%3 {
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
	"rig": true, "position": true, "trip": true, "mode": true, "used": true, "fix at": true, "rigs": true, "terrain": true, "done": true,
	"stores": true, townRows: true, "bin": true, "owned": true, "low": true, "forward": true, "quick": true, "store": true, "had": true, "move": true, "yardstick": true,
	"dust": true, "frontLocked": true, "rearLocked": true, "partKinds": true, "tools": true, "consumables": true, "other": true, "direction": true, "grade": true, "evidence": true,
	"drive": true, "wheels": true, "rearWheels": true, "rear": true, baseField: true, "id": true, numberRows: true, measureRows: true, alikeRows: true}

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

// FuzzDeviceText reads each of the other texts of this device from whatever was kept: a
// talk under way, cards pinned and opened, days of backups, which copy is in hand.
func FuzzDeviceText(f *testing.F) {
	for _, text := range append([]string{"part\tposition\n\tfront", "entry-1 2026-05-20", "2026-05-20", "9999-12-31",
		"2026-05-20\n/repair/triage?sign=howl\nWicket", "2026-05-20\njavascript:alert(1)//repair/triage?\nx"}, rubbish...) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		onDevice(t)
		if address, _, ok := triageUnderWay(text, testDay); ok {
			require.True(t, strings.HasPrefix(address, link("/repair/triage?")), "%q", address)
		}
		for _, texts := range [][2]string{{text, ""}, {"", text}, {text, text}} {
			if last, ahead := backupDay(texts[0], texts[1], testDay); !last.IsZero() {
				require.False(t, ahead)
				require.LessOrEqual(t, testDay.DaysUntil(last), 1)
			}
		}
		textsInMemory[pinnedKey(demoKit)], textsInMemory[openedKey(demoKit)] = text, text
		card := cardKey{part: "p"}
		was := isPinned(demoKit, card)
		togglePin(demoKit, card)
		require.NotEqual(t, was, isPinned(demoKit, card))
		noteOpened(demoKit, card)
		require.Equal(t, card, readCards(openedKey(demoKit))[0])
		require.LessOrEqual(t, len(readCards(openedKey(demoKit))), openedKept)
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
