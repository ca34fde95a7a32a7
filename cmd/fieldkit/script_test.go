package main

import (
	"flag"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts expect")

// TestMain lets scripts run fieldkit as the program it is.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"fieldkit": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata", UpdateScripts: *update, RequireExplicitExec: true, RequireUniqueNames: true})
}
