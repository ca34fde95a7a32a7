package app

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/picture"
)

const (
	photoSide    = 1280 // pixels of the longer side kept: a part and its numbers stay readable
	photoQuality = 0.72
	photoType    = "image/jpeg"
)

// headBytes is how much of a file is searched for where it was taken: cameras write
// that before the picture.
const headBytes = 256 << 10

// shrinkPhoto redraws a picture the person chose at a size worth keeping. What the
// browser adds to the redrawn picture is taken off, so that it carries no position and
// no device data; keepPlace writes the position, and nothing else, back into it. It
// must not run on the UI goroutine; the browser decodes, since memory given to a Go
// decoder would never come back.
func shrinkPhoto(file app.Value, keepPlace bool) (journal.Blob, error) {
	cannot := badField("this picture cannot be read", "choose a JPEG or PNG, or take a new photo")
	bitmap, ok := await(app.Window().Call("createImageBitmap", file))
	if !ok {
		return journal.Blob{}, cannot
	}
	defer bitmap.Call("close")
	w, h := scaled(bitmap.Get("width").Int(), bitmap.Get("height").Int(), photoSide)
	canvas := app.Window().Get("document").Call("createElement", "canvas")
	canvas.Set("width", w)
	canvas.Set("height", h)
	canvas.Call("getContext", "2d").Call("drawImage", bitmap, 0, 0, w, h)
	blob, ok := canvasBlob(canvas)
	if !ok {
		return journal.Blob{}, cannot
	}
	buffer, ok := await(blob.Call("arrayBuffer"))
	if !ok {
		return journal.Blob{}, cannot
	}
	content, err := picture.Bare(bytesFromJS(app.Window().Get("Uint8Array").New(buffer)))
	if err != nil {
		return journal.Blob{}, err
	}
	if keepPlace {
		content, err = withPlaceOf(file, content)
	}
	return journal.NewBlob(photoType, content), err
}

// withPlaceOf writes the position of a camera's picture, if it has one, into the
// picture that is kept.
func withPlaceOf(file app.Value, content []byte) ([]byte, error) {
	buffer, ok := await(file.Call("slice", 0, headBytes).Call("arrayBuffer"))
	if !ok {
		return content, nil
	}
	at, known := picture.PlaceOf(bytesFromJS(app.Window().Get("Uint8Array").New(buffer)))
	if !known {
		return content, nil
	}
	return picture.WithPlace(content, at)
}

// canvasBlob waits for the canvas's picture as JPEG.
func canvasBlob(canvas app.Value) (app.Value, bool) {
	got := make(chan app.Value, 1)
	take := app.FuncOf(func(_ app.Value, args []app.Value) any {
		got <- args[0]
		return nil
	})
	defer take.Release()
	canvas.Call("toBlob", take, photoType, photoQuality)
	blob := <-got
	return blob, blob.Truthy()
}

// scaled fits a picture into a square of side pixels, keeping its shape and never
// enlarging it.
func scaled(w, h, side int) (int, int) {
	longer := max(w, h)
	if longer <= side || longer == 0 {
		return w, h
	}
	return max(1, w*side/longer), max(1, h*side/longer)
}

// photoURL makes an address under which the page can show kept bytes.
func photoURL(b journal.Blob) string {
	blob := app.Window().Get("Blob").New([]any{bytesToJS(b.Data)}, map[string]any{"type": b.Type})
	return app.Window().Get("URL").Call("createObjectURL", blob).String()
}

// dropURL lets go of such an address.
func dropURL(address string) { app.Window().Get("URL").Call("revokeObjectURL", address) }
