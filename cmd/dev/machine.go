package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// machine looks at the machine it runs on.
type machine struct{}

func onPath(name string) bool {
	_, err := exec.LookPath(name)
	return err == nil
}

func (machine) command(name string) bool { return onPath(name) }

func (machine) file(pattern string) bool {
	found, err := filepath.Glob(pattern)
	return err == nil && len(found) > 0
}

func (machine) variable(name string) bool { return os.Getenv(name) != "" }

// python asks the system's own interpreter, the one that the distribution's
// packages are for.
func (machine) python(module string) bool {
	return exec.Command(python, "-c", "import "+module).Run() == nil
}

func (machine) pkgConfig(modules []string) bool {
	return exec.Command("pkg-config", append([]string{"--exists"}, modules...)...).Run() == nil
}

func (machine) runs(args []string) bool {
	return exec.Command(args[0], args[1:]...).Run() == nil
}

// compiles tells whether source compiles, and links where libraries are given.
func (machine) compiles(source string, cpp bool, libraries []string) bool {
	compiler, language := "gcc", "c"
	if cpp {
		compiler, language = "g++", "c++"
	}
	if cc := os.Getenv("CC"); cc != "" && !cpp {
		compiler = cc
	}
	dir, err := os.MkdirTemp("", "haunchbook-dev")
	if err != nil {
		return false
	}
	defer os.RemoveAll(dir)
	args := []string{"-x", language, "-", "-o", filepath.Join(dir, "probe")}
	for _, l := range libraries {
		args = append(args, "-l"+l)
	}
	cmd := exec.Command(compiler, args...)
	cmd.Stdin = strings.NewReader(source + "int main(void) { return 0; }\n")
	return cmd.Run() == nil
}
