//go:build browser

package browsertest

import (
	"context"
	_ "embed"
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/chromium"
)

//go:embed flow_look.js
var lookScript string

// addresses opens every screen of the program with the demo kit, most of them in
// several states: with something, with nothing, to add and to change.
var addresses = []string{
	"/", "/index.html", "/nowhere", "/kit",
	"/rig", "/rig?rig=wicket", "/rig/gaps?rig=hobnail", "/rig/systems?rig=hobnail", "/rig/donors", "/rig/donor", "/rig/donor?id=dolvarne-haulyard",
	"/rig/edit", "/rig/edit?id=hobnail", "/rig/position?id=hobnail-front-brake-pads", "/rig/position?id=hobnail-starter",
	"/rig/position?id=hobnail-axle-u-joint-left", "/rig/position/then?id=hobnail-front-brake-pads", "/kit/rescue", "/rig/position/edit?rig=hobnail", "/rig/position/edit?id=hobnail-front-brake-pads",
	"/rig/part/edit?position=hobnail-starter", "/rig/part/edit?id=pads-front&position=hobnail-front-brake-pads",
	"/pass?position=hobnail-front-brake-pads", "/pass?part=pads-front", "/pass?link=pads-wagon-not-packsaddle", "/pass", "/take",
	"/rig/link/edit?part=pads-front", "/rig/link/edit?id=pads-wagon-not-packsaddle",
	"/rig/driveline?rig=hobnail", "/rig/driveline?rig=wicket", "/rig/drive/edit?rig=hobnail", "/rig/priors", "/rig/prior?kind=tyre", "/rig/prior?kind=relay",
	"/pack/crew?trip=2026-12-widows-rib",
	"/pack/costs?trip=2026-12-widows-rib", "/pack/cost?trip=2026-12-widows-rib&position=hobnail-rear-shaft-left",
	"/counter", "/counter?q=35+mm+bearing", "/counter?q=zzzz", padsCard, "/counter/card?part=ujoint-1350", "/counter/kind?id=axle-u-joint",
	"/counter?q=62?7+2RS", "/counter/designation?kind=ball+bearing&q=6207-2RS+C3", "/counter/designation?q=35x12.50R99", "/counter/designation",
	"/counter/tables", "/counter/table?name=ball_bearings&q=35", "/counter/table?name=nothing", "/counter/table/row?name=bulbs&trade_number=H4", "/counter/table/row?name=bulbs",
	"/counter/measure", "/counter/measure?kind=tapered", "/counter/measure?kind=wheel",
	"/counter/fit?position=hobnail-front-brake-pads&part=pads-front", "/counter/fit?position=nowhere", "/counter/yard?position=hobnail-steering-box", "/counter/yard?position=hobnail-starter",
	"/counter/store", "/counter/store?kind=farm-ranch&rig=hobnail", "/counter/visit?store=farm-ranch", "/counter/visit?id=visit-farm-pads",
	"/pack", nextTrip, "/pack/trip?id=2026-09-high-tarn", "/pack/trip/edit", "/pack/trip/edit?id=2026-12-widows-rib", "/pack/add?trip=2026-12-widows-rib",
	"/pack/line?trip=2026-12-widows-rib&type=spare&item=ujoint-1350", "/pack/stock?what=spares", "/pack/stock?what=consumables", "/pack/stock?what=tools",
	"/pack/stock?what=bins", "/pack/stock/edit?what=spares", "/pack/stock/edit?what=consumables", "/pack/stock/edit?what=tools", "/pack/stock/edit?what=bins",
	"/repair", "/repair?q=clunk+when+turning", "/repair?position=hobnail-axle-u-joint-left", "/repair/guide?id=u-joint-axle&position=hobnail-axle-u-joint-left",
	"/repair/triage", "/repair/triage?stop=brakes&rig=wicket", "/repair/triage?clear=yes&position=hobnail-axle-u-joint-left", "/repair/triage?clear=yes&rig=hobnail&sign=hot-wheel&answers=hubs.one~where.front-wheel",
	"/repair/triage?answers=axle.front~where.front-wheel~rock.&clear=yes&list=yes&rig=hobnail&sign=bang",
	"/repair/limp", "/repair/limp?rig=hobnail&broken=rear-drive-shaft-out.a-spare-of-another-size-is-fitted", "/repair/torque?thread=1/2-13&grade=8",
	"/repair/help?rig=hobnail&what=rear+drive+shaft+out",
	"/repair/run?id=run-wicket-u-joint", "/log", "/log?show=readings", "/repair/own/edit", "/repair/note?guide=u-joint-axle&step=park", "/log/broke", "/log/broke?position=hobnail-front-brake-pads", "/log/failure", "/log/failure?id=2026-09-27-hobnail-belt-tensioner",
	"/log/reading?position=hobnail-front-brake-pads", "/log/reading",
	"/log/says", "/log/wear?position=hobnail-front-brake-pads", "/log/wear", "/log/due", "/log/service?rig=hobnail", "/log/service?rig=hobnail&id=engine-oil",
	"/log/trip?id=2024-05-widows-rib", "/log/trip",
}

// answered is what screens show only when the disk has answered.
var answered = map[string]string{
	"/kit": "Ready for no signal", "/kit/rescue": "Ways on",
	"/rig/position/then?id=hobnail-front-brake-pads": "Otherwise today",
}

// screen sizes in points: the phone, the phone turned, and the phone at 200 % zoom.
var sizes = []struct {
	name          string
	width, height int64
	scale         float64
}{
	{"upright", chromium.PhoneWidth, chromium.PhoneHeight, chromium.PhoneScale},
	{"turned", chromium.PhoneHeight, chromium.PhoneWidth, chromium.PhoneScale},
	{"zoomed to 200 %", chromium.PhoneWidth / 2, chromium.PhoneHeight / 2, chromium.PhoneScale * 2},
}

// Every screen can be read in the sun and hit with a glove: nothing is wider than
// the screen, upright, turned and at 200 % zoom; whatever is to be tapped is 48
// points high; text has 18 points and a contrast of 7:1 in both themes.
func TestEveryScreen(t *testing.T) {
	everyRouteIsListed(t)
	v := withDemo(t, nextTrip)
	v.Tap("button:Plan the kit")
	v.See("packed")

	found := map[string]map[string][]string{} // by kind, then complaint, the screens it was seen on
	note := func(kind, screen string, complaints []string) {
		for _, c := range complaints {
			if found[kind] == nil {
				found[kind] = map[string][]string{}
			}
			found[kind][c] = append(found[kind][c], screen)
		}
	}
	for _, path := range addresses {
		v.Go(path)
		v.unfold()
		if said := answered[path]; said != "" {
			v.See(said)
		}
		for _, theme := range []string{"daylight", "night"} {
			v.Run(fmt.Sprintf(`document.documentElement.dataset.theme = %q`, theme))
			v.WaitFor("colours to rest", `document.getAnimations().length === 0`)
			note("contrast", path, v.look("contrast", theme))
		}
		note("text", path, v.look("small", ""))
		for _, size := range sizes {
			require.NoError(t, v.Resize(size.width, size.height, size.scale))
			note("width", path, v.look("wide", size.name))
			note("targets", path, v.look("targets", size.name))
		}
		require.NoError(t, v.Resize(sizes[0].width, sizes[0].height, sizes[0].scale))
	}
	for _, kind := range []string{"contrast", "text", "width", "targets"} {
		t.Run(kind, func(t *testing.T) {
			for complaint, screens := range found[kind] {
				t.Errorf("%s\n\ton %s", complaint, strings.Join(screens, " "))
			}
		})
	}
}

// everyRouteIsListed compares the addresses with the routes of the program, so that
// a new screen is looked at too.
func everyRouteIsListed(t *testing.T) {
	t.Helper()
	listed := map[string]bool{}
	for _, address := range addresses {
		path, _, _ := strings.Cut(address, "?")
		listed[path] = true
	}
	for _, path := range everyRoute(t) {
		assert.True(t, listed[path], "no address opens %s", path)
	}
}

// everyRoute lists the paths of the program's screens.
func everyRoute(t *testing.T) (paths []string) {
	t.Helper()
	source, err := os.ReadFile("../../../app/routes.go")
	require.NoError(t, err)
	for _, route := range regexp.MustCompile(`"(/[^"]*)":\s+func`).FindAllStringSubmatch(string(source), -1) {
		paths = append(paths, route[1])
	}
	require.Greater(t, len(paths), 40)
	return paths
}

// look runs one check of flow_look.js over what is shown.
func (v *traveller) look(check, name string) []string {
	v.t.Helper()
	return ask[[]string](v.phone, fmt.Sprintf("(%s)(%q, %q)", strings.TrimSpace(lookScript), check, name))
}

// Resize gives the phone another screen.
func (v *traveller) Resize(width, height int64, scale float64) error {
	err := v.page.Do(func(ctx context.Context, target *chromedp.Target) error {
		_, err := chromedp.EmulateViewport(width, height, chromedp.EmulateScale(scale), chromedp.EmulateMobile, chromedp.EmulateTouch)(ctx, target)
		return err
	})
	v.Settle()
	return err
}

// colour reads a computed colour of the first element a selector finds.
func (v *traveller) colour(selector, property string) [3]float64 {
	v.t.Helper()
	return rgb(v.t, ask[string](v.phone, fmt.Sprintf(`getComputedStyle(document.querySelector(%q)).getPropertyValue(%q)`, selector, property)))
}

// rgb reads a colour as the browser computes it.
func rgb(t *testing.T, text string) (c [3]float64) {
	t.Helper()
	inside, found := strings.CutPrefix(text, "rgb(")
	require.True(t, found, "%q", text)
	for i, part := range strings.SplitN(strings.TrimSuffix(inside, ")"), ",", 3) {
		n, err := strconv.ParseFloat(strings.TrimSpace(part), 64)
		require.NoError(t, err)
		c[i] = n
	}
	return c
}

// luminance and contrast are those of WCAG 2.2, "relative luminance" and "contrast
// ratio"; 7:1 is its criterion 1.4.6.
func luminance(c [3]float64) float64 {
	linear := func(value float64) float64 {
		value /= 255
		if value <= 0.04045 {
			return value / 12.92
		}
		return math.Pow((value+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}

func contrast(a, b [3]float64) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// What is to find faults finds those that are put in front of it.
func TestLookFindsFaults(t *testing.T) {
	v := withDemo(t, "/log")
	v.Run(`document.querySelector('main').insertAdjacentHTML('beforeend', '<p id="faults"><button>tap <i>me</i></button> grey</p>')`)
	v.Run(`Object.assign(document.querySelector('#faults').style, { width: '500px', color: '#777', background: '#fff' })`)
	v.Run(`Object.assign(document.querySelector('#faults button').style, { height: '20px', padding: '0' })`)
	v.Run(`document.querySelector('#faults i').style.fontSize = '12px'`)
	for check, wanted := range map[string]string{"contrast": "grey", "small": "me", "wide": "of 360 points", "targets": "tap me"} {
		said := v.look(check, "")
		if assert.NotEmpty(t, said, check) {
			assert.Contains(t, strings.Join(said, "\n"), wanted, check)
		}
	}
	// The worked example of WCAG: #777 on white is 4.48:1, just below 4.5.
	assert.InDelta(t, 4.48, contrast(v.colour("#faults", "color"), v.colour("#faults", "background-color")), 0.005)
}
