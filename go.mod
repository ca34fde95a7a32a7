module trailfieldkit

go 1.26

require (
	github.com/maxence-charriere/go-app/v10 v10.1.11 // MIT; builds for js/wasm; is the frame of the app
	gonum.org/v1/gonum v0.17.0 // BSD-3-Clause; builds for js/wasm; of it only mathext is linked, the rest serves tests
	rsc.io/qr v0.2.0 // BSD-3-Clause; builds for js/wasm; its package coding draws QR codes (4 kB compressed)
)

// Only tests and the tools under cmd use these: they add nothing to the download.
require (
	github.com/andybalholm/brotli v1.2.8 // MIT; .br files of the static site
	github.com/arran4/golang-ical v0.3.4 // Apache-2.0; reads the calendars back
	github.com/chromedp/cdproto v0.159.0 // MIT; browser tests
	github.com/chromedp/chromedp v0.23.0 // MIT; browser tests
	github.com/emersion/go-ical v0.0.0-20250329121855-f41e73efc392 // MIT; reads the calendars back
	github.com/jacoelho/xsd v0.0.27 // MIT; checks waypoints against the published schema
	github.com/makiuchi-d/gozxing v0.1.1 // MIT; reads the QR codes back
	github.com/rogpeppe/go-internal v1.16.0 // BSD-3-Clause; script tests of the desk commands
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3 // Apache-2.0; checks kit files against the published schema
	github.com/stretchr/testify v1.12.1 // MIT; assertions
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/google/uuid v1.6.0 // indirect
	github.com/teambition/rrule-go v1.8.2 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sys v0.30.0 // indirect
	golang.org/x/text v0.23.0 // indirect
	golang.org/x/tools v0.30.0 // indirect
	golang.org/x/xerrors v0.0.0-20200804184101-5ec99f83aff1 // indirect
)
