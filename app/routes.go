package app

import (
	"net/url"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// destination is one of the five places at the bottom of every screen.
type destination struct {
	path, name, icon string
}

var destinations = []destination{
	{"/rig", "Rig", iconRig},
	{"/pack", "Pack", iconPack},
	{"/repair", "Repair", iconRepair},
	{"/counter", "Counter", iconCounter},
	{"/log", "Log", iconLog},
}

// registerRoutes ties addresses to screens. A factory makes a new component each
// time: a component that was mounted once cannot be mounted again.
func registerRoutes() {
	for path, screen := range routes {
		app.Route(path, screen)
	}
	app.RouteWithRegexp(".*", func() app.Composer { return &unknownScreen{} })
}

var routes = map[string]func() app.Composer{
	"/counter":             func() app.Composer { return &counterScreen{} },
	"/":                    func() app.Composer { return &rigScreen{} },
	"/counter/card":        func() app.Composer { return &cardScreen{} },
	"/counter/kind":        func() app.Composer { return &kindScreen{} },
	"/index.html":          func() app.Composer { return &rigScreen{} },
	"/kit":                 func() app.Composer { return &kitScreen{} },
	"/log":                 func() app.Composer { return &logScreen{} },
	"/log/broke":           func() app.Composer { return &brokeScreen{} },
	"/log/failure":         func() app.Composer { return &failureScreen{} },
	"/log/reading":         func() app.Composer { return &readingScreen{} },
	"/log/says":            func() app.Composer { return &saysScreen{} },
	"/log/wear":            func() app.Composer { return &wearScreen{} },
	"/log/due":             func() app.Composer { return &dueScreen{} },
	"/log/service":         func() app.Composer { return &serviceScreen{} },
	"/log/trip":            func() app.Composer { return &tripReportScreen{} },
	"/pack":                func() app.Composer { return &packScreen{} },
	"/pack/add":            func() app.Composer { return &packAddScreen{} },
	"/pack/line":           func() app.Composer { return &packLineScreen{} },
	"/pack/stock":          func() app.Composer { return &stockScreen{} },
	"/pack/stock/edit":     func() app.Composer { return &stockEditScreen{} },
	"/pack/trip/edit":      func() app.Composer { return &tripEditScreen{} },
	"/pack/trip":           func() app.Composer { return &packTripScreen{} },
	"/pass":                func() app.Composer { return &passScreen{} },
	"/take":                func() app.Composer { return &takeScreen{} },
	"/repair":              func() app.Composer { return &repairScreen{} },
	"/repair/guide":        func() app.Composer { return &guideScreen{} },
	"/repair/help":         func() app.Composer { return &helpScreen{} },
	"/repair/note":         func() app.Composer { return &stepNoteScreen{} },
	"/repair/own/edit":     func() app.Composer { return &ownRepairScreen{} },
	"/repair/limp":         func() app.Composer { return &limpScreen{} },
	"/repair/triage":       func() app.Composer { return &triageScreen{} },
	"/repair/torque":       func() app.Composer { return &torqueScreen{} },
	"/repair/run":          func() app.Composer { return &runScreen{} },
	"/rig":                 func() app.Composer { return &rigScreen{} },
	"/rig/donor":           func() app.Composer { return &donorScreen{} },
	"/rig/donors":          func() app.Composer { return &donorsScreen{} },
	"/rig/driveline":       func() app.Composer { return &drivelineScreen{} },
	"/rig/drive/edit":      func() app.Composer { return &drivelineEditScreen{} },
	"/rig/prior":           func() app.Composer { return &priorScreen{} },
	"/rig/priors":          func() app.Composer { return &priorsScreen{} },
	"/pack/cost":           func() app.Composer { return &costScreen{} },
	"/pack/crew":           func() app.Composer { return &crewScreen{} },
	"/pack/costs":          func() app.Composer { return &costsScreen{} },
	"/rig/edit":            func() app.Composer { return &rigEditScreen{} },
	"/rig/gaps":            func() app.Composer { return &gapsScreen{} },
	"/rig/link/edit":       func() app.Composer { return &linkEditScreen{} },
	"/rig/part/edit":       func() app.Composer { return &partEditScreen{} },
	"/rig/position":        func() app.Composer { return &positionScreen{} },
	"/rig/position/edit":   func() app.Composer { return &positionEditScreen{} },
	"/rig/systems":         func() app.Composer { return &systemsScreen{} },
	"/counter/designation": func() app.Composer { return &designationScreen{} },
	"/counter/measure":     func() app.Composer { return &measureScreen{} },
	"/counter/table":       func() app.Composer { return &tableScreen{} },
	"/counter/table/row":   func() app.Composer { return &tableRowScreen{} },
	"/counter/tables":      func() app.Composer { return &tablesScreen{} },
	"/counter/fit":         func() app.Composer { return &fitScreen{} },
	"/counter/store":       func() app.Composer { return &storeScreen{} },
	"/counter/visit":       func() app.Composer { return &visitScreen{} },
	"/counter/yard":        func() app.Composer { return &yardScreen{} },
	"/kit/rescue":          func() app.Composer { return &rescueScreen{} },
	"/rig/position/then":   func() app.Composer { return &thenScreen{} },
}

// query writes name, value pairs as a query, leaving empty values out.
func query(pairs ...string) string {
	v := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			v.Set(pairs[i], pairs[i+1])
		}
	}
	if len(v) == 0 {
		return ""
	}
	return "?" + v.Encode()
}
