// Check runs every test there is: formatting, vet, the tests on this computer, geometry's tests again in the browser's engine, and the
// browser tests. Its last line counts them all. BROWSER=no leaves the browser out and ENGINES=all tries the main job in the other two engines as well;
// what was not run is said.
package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"gapwright/app/phone"
)

const browserTests = "gapwright/app/phone"

func main() {
	browser := os.Getenv("BROWSER") != "no"
	if engines := os.Getenv("ENGINES"); engines != "" && (engines != "all" || !browser) {
		fmt.Fprintf(os.Stderr, "ENGINES=%s means nothing here: ENGINES=all tries Chromium, Firefox and WebKitGTK, and needs BROWSER to be left alone\n", engines)
		os.Exit(1)
	}
	var notRun []string
	for _, engine := range phone.Engines() {
		if !browser || !engine.Wanted() {
			notRun = append(notRun, engine.String())
			continue
		}
		version, err := engine.Version()
		if err != nil {
			if err = installEngine(engine); err == nil {
				version, err = engine.Version()
			}
		}
		if err != nil {
			fmt.Fprintf(os.Stderr, "%v\nThe tests need %s. Install it, or name one in CHROMIUM or FIREFOX:\n\n    %s\n\n", err, engine, strings.Join(install(engine), " && "))
			os.Exit(1)
		}
		fmt.Println(version)
	}

	var total tally
	total.add(stage("formatting", formatted))
	total.add(stage("vet", func() tally { return passes(goCommand(nil, "vet", "./...")) }))
	total.add(stage("vet for the browser", func() tally { return passes(goCommand(wasm, "vet", "./app/store", "./app/view", "./cmd/gapwright")) }))
	total.add(stage("on this computer", func() tally {
		packages, err := nativePackages()
		if err != nil {
			fmt.Println(err)
			return tally{failed: 1}
		}
		return tests(nil, packages...)
	}))
	if browser {
		total.add(stage("geometry in the browser's engine", func() tally {
			runner := filepath.Join("build", "inbrowser")
			if built := passes(goCommand(nil, "build", "-o", runner, "./cmd/inbrowser")); built.failed > 0 {
				return built
			}
			absolute, err := filepath.Abs(runner)
			if err != nil {
				fmt.Println(err)
				return tally{failed: 1}
			}
			return tests(wasm, "-exec="+absolute, "./geometry/...")
		}))
		total.add(stage("in the browser", func() tally { return tests(nil, "-count=1", "-timeout=40m", browserTests) }))
	}
	for _, engine := range notRun {
		fmt.Printf("%s: NOT RUN\n", engine)
	}
	fmt.Println("An iPhone: NOT RUN, none was at hand")
	fmt.Printf("%d passed, %d failed\n", total.passed, total.failed)
	if total.failed > 0 {
		os.Exit(1)
	}
}

var wasm = []string{"GOOS=js", "GOARCH=wasm"}

// stage says what is going on; a stage in which nothing was tried has failed.
func stage(name string, run func() tally) tally {
	fmt.Println(name)
	t := run()
	if t.passed+t.failed == 0 {
		fmt.Println("  nothing was tested")
		t.failed++
	}
	return t
}

func goCommand(env []string, arguments ...string) *exec.Cmd {
	command := exec.Command("go", arguments...)
	command.Env = append(os.Environ(), env...)
	return command
}

// passes runs a command that says nothing when all is well, and counts it as one test.
func passes(command *exec.Cmd) tally {
	said, err := command.CombinedOutput()
	if err != nil {
		fmt.Printf("%s%s: %v\n", said, command, err)
		return tally{failed: 1}
	}
	return tally{passed: 1}
}

func formatted() tally {
	said, err := exec.Command("gofmt", "-l", "app", "cmd", "geometry", "web").CombinedOutput()
	if err != nil || len(said) > 0 {
		fmt.Printf("not formatted, make fmt does it:\n%s", said)
		return tally{failed: 1}
	}
	return tally{passed: 1}
}

// nativePackages lists every package but the one that needs a browser.
func nativePackages() ([]string, error) {
	out, err := goCommand(nil, "list", "./...").Output()
	if err != nil {
		return nil, fmt.Errorf("listing the packages: %w", err)
	}
	var packages []string
	for _, name := range strings.Fields(string(out)) {
		if name != browserTests {
			packages = append(packages, name)
		}
	}
	return packages, nil
}

// tests runs go test and counts. A run that ends badly without a failed test is a failure all the same.
func tests(env []string, arguments ...string) tally {
	command := goCommand(env, append([]string{"test", "-json"}, arguments...)...)
	out, err := command.StdoutPipe()
	var complaints bytes.Buffer
	command.Stderr = io.MultiWriter(os.Stdout, &complaints)
	if err == nil {
		err = command.Start()
	}
	if err != nil {
		fmt.Println(err)
		return tally{failed: 1}
	}
	count := read(out, os.Stdout)
	if err := command.Wait(); err != nil && count.failed == 0 {
		fmt.Printf("  go test: %v\n", err)
		count.failed++
	}
	return count
}

// install is what a person types, or what is done for them where that is allowed.
func install(engine phone.Engine) []string {
	return []string{"sudo apt-get update", "sudo apt-get install -y --no-install-recommends " + strings.Join(engine.Packages(), " ")}
}

func installEngine(engine phone.Engine) error {
	if _, err := exec.LookPath("apt-get"); err != nil {
		return fmt.Errorf("there is no %s, and no apt-get to install it with", engine)
	}
	asRoot := os.Geteuid() == 0
	if !asRoot && exec.Command("sudo", "-n", "true").Run() != nil {
		return fmt.Errorf("there is no %s, and installing it needs a password", engine)
	}
	for _, line := range install(engine) {
		words := strings.Fields(line)
		if asRoot {
			words = words[1:] // no sudo
		} else {
			words = append([]string{"sudo", "-n"}, words[1:]...)
		}
		fmt.Println(strings.Join(words, " "))
		command := exec.Command(words[0], words[1:]...)
		command.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
		if said, err := command.CombinedOutput(); err != nil {
			return fmt.Errorf("%s: %w\n%s", strings.Join(words, " "), err, said)
		}
	}
	return nil
}
