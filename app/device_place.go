package app

import (
	"math"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// placeWait is how long the device may look for its position, in milliseconds. A
// place never blocks saving: the person can save while it still looks.
const placeWait = 20_000

// findPlace asks the device where it is. Then runs on the UI goroutine.
func findPlace(ctx app.Context, then func(app.Context, fieldkit.Place, error)) {
	geo := app.Window().Get("navigator").Get("geolocation")
	if !geo.Truthy() {
		then(ctx, fieldkit.Place{}, badField("this device does not give its position", "write the place in words"))
		return
	}
	var found, refused app.Func
	end := func(p fieldkit.Place, err error) {
		found.Release()
		refused.Release()
		ctx.Dispatch(func(ctx app.Context) { then(ctx, p, err) })
	}
	found = app.FuncOf(func(_ app.Value, args []app.Value) any {
		c := args[0].Get("coords")
		end(fixOf(c.Get("latitude").Float(), c.Get("longitude").Float(), c.Get("accuracy").Float(), now()))
		return nil
	})
	refused = app.FuncOf(func(_ app.Value, args []app.Value) any {
		end(fieldkit.Place{}, badField("the position was not found: "+placeReason(args[0].Get("code").Int()), "write the place in words, or try again under open sky"))
		return nil
	})
	geo.Call("getCurrentPosition", found, refused, map[string]any{"enableHighAccuracy": true, "timeout": placeWait, "maximumAge": 60_000})
}

// farthestOff is the accuracy, in metres, from which on a position says nothing: the
// Earth is no larger.
const farthestOff = 20_000_000

// fixOf makes a place of what a device says, in degrees and metres. Error of kind
// BadInput for what is nowhere on the globe.
func fixOf(lat, lon, accuracy float64, at fieldkit.Moment) (fieldkit.Place, error) {
	if !(math.Abs(lat) <= 90 && math.Abs(lon) <= 180 && accuracy >= 0 && accuracy <= farthestOff) { // nor what is no number
		return fieldkit.Place{}, badField("this device gave a position that is nowhere on the globe", "write the place in words, or try again under open sky")
	}
	return fieldkit.Place{Lat: micro(lat), Lon: micro(lon), Accuracy: fieldkit.Distance(math.Round(accuracy)) * fieldkit.Metre, FixedAt: at}, nil
}

// micro turns degrees into the millionths that are kept.
func micro(degrees float64) int64 { return int64(math.Round(degrees * 1e6)) }

func placeReason(code int) string {
	switch code {
	case 1:
		return "the app may not use it"
	case 3:
		return "it took too long"
	}
	return "there is no signal from above"
}
