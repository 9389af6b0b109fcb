package job

import (
	"fmt"
	"runtime/debug"
)

// Build says which build of the program this is: its version, the state of the source
// where that is known, the Go that made it, and the version of the job files it writes.
func Build() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return fmt.Sprintf("of an unknown version, job files of version %d", Version)
	}
	text := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			text += " " + s.Value
		}
	}
	return fmt.Sprintf("%s, %s, job files of version %d", text, info.GoVersion, Version)
}
