package chromium

import (
	"fmt"
	"os"
	"os/exec"

	"trailfieldkit/fieldkit"
)

// PathVariable names the environment variable that says which browser to use.
const PathVariable = "FIELDKIT_CHROMIUM"

var usualNames = []string{
	"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
	"/Applications/Chromium.app/Contents/MacOS/Chromium",
	"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
}

// Find returns the path of a Chromium or Chrome. Error of kind NotFound if this
// computer has none.
func Find() (string, error) {
	if named := os.Getenv(PathVariable); named != "" {
		path, err := exec.LookPath(named)
		if err != nil {
			return "", &fieldkit.Error{Kind: fieldkit.NotFound, Where: PathVariable,
				What: fmt.Sprintf("%q is not a program that can be run", named),
				Do:   "set it to the path of Chromium, or remove it"}
		}
		return path, nil
	}
	for _, name := range usualNames {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", &fieldkit.Error{Kind: fieldkit.NotFound, What: "no Chromium on this computer",
		Do: "install it (apt-get install chromium, dnf install chromium, pacman -S chromium, brew install --cask chromium) " +
			"or set " + PathVariable + " to its path"}
}
