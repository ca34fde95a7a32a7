package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// What a trip is measured by, how hard it is beyond its terrain, and when its towns
// sell: the part of a trip that what failures cost follows from.

func townField(i int, what string) string { return fmt.Sprintf("town/%d/%s", i, what) }

func countingFields(t fieldkit.Trip) map[string]string {
	fields := map[string]string{"yardstick": string(t.Yardstick), "dust": string(t.Dust)}
	if t.ID != "" {
		fields[baseField] = baseOf(t)
	}
	if t.Yardstick == fieldkit.ByHours {
		fields["yardstick"] = ""
	}
	if t.HourWorth != nil {
		fields["hourWorth"] = t.HourWorth.String()
	}
	if t.RecoveryPrice != nil {
		fields["recovery"] = t.RecoveryPrice.String()
	}
	if t.Overload != 0 {
		fields["overload"] = itoa(t.Overload)
	}
	if t.Crossings != 0 {
		fields["crossings"] = itoa(t.Crossings)
	}
	fields["engineHours"] = wholeText(t.EngineHours)
	for i, town := range t.Towns {
		var days []string
		for _, d := range town.Closed {
			days = append(days, string(d))
		}
		fields[townField(i, "closed")] = strings.Join(days, ", ")
		if town.Order > 0 {
			fields[townField(i, "order")] = town.Order.String()
		}
	}
	return fields
}

func (s *costsScreen) counting() app.UI {
	f := s.form
	body := []app.UI{
		f.restoredNotice(),
		f.pick("yardstick", "Measured by", []option{{"", "hours lost"}, {string(fieldkit.ByMoney), "money"}, {string(fieldkit.ByHome), "getting home or not"}}),
		f.text("hourWorth", "An hour lost is worth", "counts where money is the measure"),
		f.text("recovery", "Being fetched costs", "once, likewise"),
		f.whole("crossings", "Deep water crossings", "0 if there are none"),
		f.whole("overload", "Load over what the axles were built for, in per cent", "0 if it is within"),
		f.whole("engineHours", "Hours the engine will run", "for what wears by the hour meter; by the rig's own hours and distance if left out"),
		f.pick("dust", "Dust", []option{{"", "little"}, {string(fieldkit.SomeDust), "some"}, {string(fieldkit.HeavyDust), "heavy"}}),
	}
	for i, town := range s.view.trip.Towns {
		body = append(body,
			f.text(townField(i, "closed"), town.Name+": closed on", "days with commas between: Saturday, Sunday"),
			f.text(townField(i, "order"), town.Name+": ordered parts come in", "36 h if left out"))
	}
	return app.Details().Class("group").Body(
		app.Summary().Body(app.Text("How this trip counts")),
		app.Div().Class("in block").Body(append(body, f.saving("Save how it counts", s.save))...),
	)
}

// wholeText writes a whole number that may be left out.
func wholeText(n int) string {
	if n == 0 {
		return ""
	}
	return itoa(n)
}

// readCounting reads the form into a trip; every wrong field is marked.
func readCounting(f *form, t fieldkit.Trip, currency string) (fieldkit.Trip, bool) {
	ok := f.short()
	t.Yardstick, t.Dust = fieldkit.Yardstick(f.get("yardstick")), fieldkit.Dust(f.get("dust"))
	var err error
	t.HourWorth, err = optionalMoney(f.get("hourWorth"), currency)
	ok = f.refuse("hourWorth", err) && ok
	t.RecoveryPrice, err = optionalMoney(f.get("recovery"), currency)
	ok = f.refuse("recovery", err) && ok
	t.Crossings, err = optionalWhole(f.get("crossings"), 0, 1000)
	ok = f.refuse("crossings", err) && ok
	t.Overload, err = optionalWhole(f.get("overload"), -50, 200)
	ok = f.refuse("overload", err) && ok
	t.EngineHours, err = optionalWhole(f.get("engineHours"), 0, fieldkit.MaxTripHours)
	ok = f.refuse("engineHours", err) && ok
	t.Towns = slices.Clone(t.Towns)
	for i := range t.Towns {
		name := townField(i, "closed")
		t.Towns[i].Closed, err = weekdays(f.get(name))
		ok = f.refuse(name, err) && ok
		name = townField(i, "order")
		t.Towns[i].Order, err = optionalSpan(f.get(name))
		ok = f.refuse(name, err) && ok
	}
	return t, ok
}

// weekdays reads days by their names or first three letters.
func weekdays(text string) (days []fieldkit.Weekday, err error) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == ';' }) {
		i := slices.IndexFunc(fieldkit.Weekdays, func(d fieldkit.Weekday) bool {
			return len(word) >= 3 && strings.HasPrefix(strings.ToLower(string(d)), strings.ToLower(strings.TrimSuffix(word, "s")))
		})
		if i < 0 {
			return nil, badField(fmt.Sprintf("%q is not a day of the week", word), "write Saturday, Sunday")
		}
		if !slices.Contains(days, fieldkit.Weekdays[i]) {
			days = append(days, fieldkit.Weekdays[i])
		}
	}
	return days, nil
}

// optionalSpan reads a span of time that may be left out.
func optionalSpan(text string) (fieldkit.Minutes, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return fieldkit.ParseMinutes(text)
}

func (s *costsScreen) save(ctx app.Context) {
	t, ok := readCounting(s.form, s.view.trip, kept.kit().Currency)
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	f := s.form
	typed := maps.Clone(f.values)
	f.keep(ctx, "Saved how it counts: "+t.Name, t, func(app.Context) { f.start = typed }) // it stays open: the load that follows takes up what is kept now
}
