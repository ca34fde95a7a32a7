package main

import (
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBusyPortSaysWhatToDo(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	_, faults, status := say("serve", "-addr", taken.Addr().String())
	assert.Equal(t, notDone, status)
	assert.Contains(t, faults, taken.Addr().String()+" is in use")
	assert.Contains(t, faults, "fieldkit serve -addr")
	assert.Equal(t, 1, strings.Count(faults, "\n"))
}

func TestBadAddressSaysHowToWriteOne(t *testing.T) {
	_, faults, status := say("serve", "-addr", "nowhere")
	assert.Equal(t, notDone, status)
	assert.Contains(t, faults, "write HOST:PORT")
}

func TestKitToOfferMustBeGood(t *testing.T) {
	_, faults, status := say("serve", "-kit", filepath.Join(t.TempDir(), "none.json"))
	assert.Equal(t, notDone, status)
	assert.Contains(t, faults, `none.json" cannot be read`)

	broken := filepath.Join(t.TempDir(), "rig.json")
	require.NoError(t, os.WriteFile(broken, []byte("{\n"), 0o644))
	_, faults, status = say("serve", "-kit", broken)
	assert.Equal(t, notDone, status)
	assert.Contains(t, faults, "rig.json")
}

// An answer under way is finished before the program ends.
func TestStopsGracefully(t *testing.T) {
	listener, err := listen("127.0.0.1:0")
	require.NoError(t, err)
	asked, answer := make(chan struct{}), make(chan struct{})
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() {
		ended <- serveUntil(ctx, listener, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			close(asked)
			<-answer
			io.WriteString(w, "whole")
		}))
	}()
	got := make(chan string, 1)
	go func() {
		response, err := http.Get("http://" + listener.Addr().String())
		if err != nil {
			got <- err.Error()
			return
		}
		defer response.Body.Close()
		body, _ := io.ReadAll(response.Body)
		got <- string(body)
	}()
	<-asked
	stop()
	time.Sleep(50 * time.Millisecond)
	close(answer)
	assert.Equal(t, "whole", <-got)
	assert.NoError(t, <-ended)
}

func TestSizesReadWell(t *testing.T) {
	for bytes, text := range map[int]string{0: "0 B", 999: "999 B", 1000: "1 kB", 38_499: "38 kB", 7_123_456: "7.12 MB"} {
		assert.Equal(t, text, size(bytes))
	}
}
