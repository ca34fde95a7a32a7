package browserstore

import (
	"strconv"
	"syscall/js"
	"time"
)

// thisTab tells this page's messages from those of other tabs.
var thisTab = strconv.FormatInt(time.Now().UnixNano(), 36) + "-" + strconv.FormatFloat(js.Global().Get("Math").Call("random").Float(), 'g', -1, 64)

// Watch calls changed whenever another tab has written to the kit, until stop is
// called. Each call is on a goroutine of its own. In a browser without broadcast
// channels nothing is reported; the session still notices at its next write.
func Watch(name string, changed func()) (stop func()) {
	channel := openChannel(name)
	if !channel.Truthy() {
		return func() {}
	}
	var handlers callbacks
	handlers.set(channel, "onmessage", func(event js.Value) {
		if text(event.Get("data")) != thisTab {
			go changed()
		}
	})
	return func() {
		closeChannel(channel)
		handlers.release()
	}
}

func openChannel(name string) js.Value {
	channel := js.Undefined()
	if kind := global("BroadcastChannel"); kind.Truthy() {
		_ = try(func() { channel = kind.New("trail-field-kit journal " + name) }) // without one nothing is told
	}
	return channel
}

// post tells other tabs that something was written.
func post(channel js.Value) {
	if channel.Truthy() {
		_ = try(func() { channel.Call("postMessage", thisTab) }) // they notice at their next write
	}
}

func closeChannel(channel js.Value) {
	if channel.Truthy() {
		channel.Set("onmessage", nil)
		channel.Call("close")
	}
}
