package job

import (
	"fmt"
	"runtime/debug"
)

// Program names the program with the version of this build, as every document says what
// wrote it: "Haunchbook v0.4.0". Go takes the version from the tag, and between tags from
// the commit ("v0.4.1-0.20261128232300-446ada4d5c6b"); a build that knows neither is
// "(devel)".
func Program() string {
	version := "(devel)"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	return "Haunchbook " + version
}

// Build says which build of the program this is: its version, the commit where that is
// known, the Go that made it, and the version of the job files it writes.
func Build() string {
	text := Program()
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				text += ", commit " + s.Value
			}
		}
		text += ", " + info.GoVersion
	}
	return fmt.Sprintf("%s, job files of version %d", text, Version)
}
