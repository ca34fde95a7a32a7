package kitfile

import "trailfieldkit/fieldkit"

func checkInto(k fieldkit.Kit, found *faults) {}

// Check lists what is wrong with a kit.
func Check(k fieldkit.Kit) []Problem { return nil }
