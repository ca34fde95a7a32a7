//go:build browser

package browsertest

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	ical "github.com/emersion/go-ical"
)

// The log says what fails, with pictures and the tables behind them; wear is shown over
// distance, a trip is told.
func TestWhatTheLogSays(t *testing.T) {
	v := withDemo(t, "/log")
	v.Tap("link:What it says")
	v.See("What fails most")
	v.See("What cost most hours")
	v.Tap("button:Wicket")
	v.See("7 failures")
	v.WaitFor("pictures that say what they show", `document.querySelectorAll("svg.chart").length === 2 && [...document.querySelectorAll("svg.chart")].every(s => s.getAttribute("role") === "img" && s.querySelector("title").textContent && s.querySelector("desc").textContent)`)
	v.Go("/log/wear?position=hobnail-front-brake-pads")
	v.See("nine times in ten")
	v.WaitFor("the line, its interval and its table", `document.querySelector("svg.chart .chart-band") && document.querySelectorAll("table.sheet tbody tr").length > 5`)
	v.Go("/log/trip?id=2024-05-widows-rib")
	v.See("steering pump seized")
	v.See("Used, and to buy")
	name, page := v.Saved("button:Save as a page")
	assert.Equal(t, "trip-report.html", name)
	assert.Contains(t, string(page), "Steering pump seized")
	assert.NotContains(t, string(page), "<script")
}

// A service is added, comes round, is done, outlives the browser, and goes to a calendar.
func TestServiceComesRound(t *testing.T) {
	v := withDemo(t, "/log/due")
	v.See("Never written down")
	v.Go("/log/service?rig=hobnail")
	v.See("When it comes round")
	v.Fill("What is done", "winch rope washed")
	v.Fill("Every so many months", "3")
	v.Tap("button:Save service")
	v.At("/log/due")
	v.See("winch rope washed")
	v.Tap("link:Hobnail: winch rope washed")
	v.See("Every 3 months")
	v.Tap("button:It was done")
	v.At("/log/due")
	v.DieAndWake("/log/due")
	v.See("winch rope washed")
	v.WaitFor("it to come later", `[...document.querySelectorAll("section.block")].some(s => s.querySelector("h2")?.textContent === "Later" && s.textContent.includes("winch rope washed"))`)
	name, file := v.Saved("css:.work .no-print .two button")
	assert.Equal(t, "service-due.ics", name)
	calendar, err := ical.NewDecoder(bytes.NewReader(file)).Decode()
	require.NoError(t, err)
	assert.Greater(t, len(calendar.Events()), 5)
}
