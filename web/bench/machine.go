package main

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"
	"time"
)

// busyOver is how long the machine is watched before anything is measured.
const busyOver = 2 * time.Second

// busyLimit in percent of all processors: more than this of other work, and the figures are not worth keeping.
const busyLimit = 5.0

// otherWork returns how much of all processors other programs use at this moment, in percent.
func otherWork() (float64, error) {
	var idle, all [2]int64
	for i := range 2 {
		if i > 0 {
			time.Sleep(busyOver)
		}
		stat, err := os.ReadFile("/proc/stat")
		if err != nil {
			return 0, fmt.Errorf("the machine's work can be watched on Linux only: %w", err)
		}
		if idle[i], all[i], err = parseWork(string(stat)); err != nil {
			return 0, err
		}
	}
	if all[1] == all[0] {
		return 0, nil
	}
	return 100 * (1 - float64(idle[1]-idle[0])/float64(all[1]-all[0])), nil
}

// parseWork reads the first line of proc(5), stat: ticks by kind of work, of which the fourth and fifth are idle and
// waiting; the ninth and tenth are already in the first two.
func parseWork(stat string) (idle, all int64, err error) {
	line, _, _ := strings.Cut(stat, "\n")
	words := strings.Fields(line)
	if len(words) < 9 || words[0] != "cpu" {
		return 0, 0, fmt.Errorf("%q is not the first line of /proc/stat", line)
	}
	for i, word := range words[1:9] {
		ticks, err := strconv.ParseInt(word, 10, 64)
		if err != nil {
			return 0, 0, fmt.Errorf("the first line of /proc/stat: %w", err)
		}
		all += ticks
		if i == 3 || i == 4 {
			idle += ticks
		}
	}
	return idle, all, nil
}

// machineLine names what the figures were measured on, and how much else it had to do just before, in percent.
func machineLine(ctx context.Context, o options, busy float64) (string, error) {
	path, err := findChromium(o.browser)
	if err != nil {
		return "", err
	}
	browser, err := output(ctx, nil, path, "--version")
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("Measured on %s, %d processors (%.0f %% busy with other work before), %s/%s, %s, %s headless.",
		processorName(), runtime.NumCPU(), busy, runtime.GOOS, runtime.GOARCH,
		runtime.Version(), strings.Join(strings.Fields(browser)[:min(2, len(strings.Fields(browser)))], " ")), nil
}

// processorName returns the processor's name where the system tells it.
func processorName() string {
	info, err := os.ReadFile("/proc/cpuinfo")
	if err == nil {
		for line := range strings.Lines(string(info)) {
			if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
				return strings.TrimSpace(value)
			}
		}
	}
	return "an unnamed processor"
}
