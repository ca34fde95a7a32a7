// Package app is what the person sees: one screen a file, drawn with go-app.
//
// It only shows and asks. What is shown is computed by the packages under
// fieldkit from the immutable kit that the store publishes; what is asked goes
// back through Store.do, which says "done" only when the change is on disk.
//
//	app.Run()  // registers the screens and starts them in the browser
//
// Frame of every screen: shell.go. Addresses: routes.go. The kit in hand, its
// opening and its changes: store.go. Typing that must survive a dead phone:
// form.go and field.go. What the device can do: device.go. No screen parses,
// sorts or reads the clock while it draws; it loads a view first.
package app
