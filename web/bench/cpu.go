package main

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"
)

// ticksPerSecond is the unit of times in /proc: USER_HZ, 100 on every Linux that runs a browser.
const ticksPerSecond = 100

// usage is processor time in percent of one core.
type usage struct {
	drawing float64       // the processes that draw: renderers and the graphics process
	all     float64       // the whole tree
	busyFor time.Duration // from loading until the page was at rest
}

// process is one line of /proc.
type process struct {
	parent int
	ticks  int64 // user and system time so far
	draws  bool
}

// watchProcesses returns what the process and all below it use over some time. It reads /proc, so it needs Linux.
func watchProcesses(root int, over time.Duration) (usage, error) {
	before, err := readProcesses("/proc")
	if err != nil {
		return usage{}, err
	}
	start := time.Now()
	time.Sleep(over)
	after, err := readProcesses("/proc")
	if err != nil {
		return usage{}, err
	}
	if _, ok := after[root]; !ok {
		return usage{}, errors.New("the browser has ended while it was watched")
	}
	return used(before, after, root, time.Since(start)), nil
}

// used adds up what the tree below root has spent between two readings. A process that came in between counts from its
// beginning; one that ended is not counted.
func used(before, after map[int]process, root int, elapsed time.Duration) usage {
	var u usage
	for pid, p := range after {
		if !below(after, pid, root) {
			continue
		}
		percent := float64(p.ticks-before[pid].ticks) / ticksPerSecond / elapsed.Seconds() * 100
		u.all += percent
		if p.draws {
			u.drawing += percent
		}
	}
	return u
}

// below says whether pid is root or descends from it.
func below(all map[int]process, pid, root int) bool {
	for range len(all) { // a tree cannot be deeper than it has members
		if pid == root {
			return true
		}
		p, ok := all[pid]
		if !ok {
			return false
		}
		pid = p.parent
	}
	return false
}

// readProcesses reads the processes that are there. One that ends while it is read is left out.
func readProcesses(proc string) (map[int]process, error) {
	entries, err := os.ReadDir(proc)
	if err != nil {
		return nil, fmt.Errorf("processes can be watched on Linux only: %w", err)
	}
	all := map[int]process{}
	for _, e := range entries {
		pid, err := strconv.Atoi(e.Name())
		if err != nil {
			continue
		}
		stat, err := os.ReadFile(proc + "/" + e.Name() + "/stat")
		if err != nil {
			continue
		}
		p, err := parseStat(string(stat))
		if err != nil {
			return nil, fmt.Errorf("process %d: %w", pid, err)
		}
		command, err := os.ReadFile(proc + "/" + e.Name() + "/cmdline")
		if err != nil {
			continue
		}
		p.draws = strings.Contains(string(command), "--type=renderer") ||
			strings.Contains(string(command), "--type=gpu-process")
		all[pid] = p
	}
	return all, nil
}

// parseStat reads a line of proc(5), stat: field 4 is the parent, 14 and 15 are the ticks spent by the program and for
// it by the system. Field 2 is a name in parentheses that may hold anything, so the count starts after the last of
// them.
func parseStat(stat string) (process, error) {
	rest := strings.Fields(stat[strings.LastIndexByte(stat, ')')+1:])
	if len(rest) < 13 {
		return process{}, fmt.Errorf("%q is not a line of /proc/PID/stat", stat)
	}
	parent, err1 := strconv.Atoi(rest[1])
	user, err2 := strconv.ParseInt(rest[11], 10, 64)
	system, err3 := strconv.ParseInt(rest[12], 10, 64)
	if err := errors.Join(err1, err2, err3); err != nil {
		return process{}, err
	}
	return process{parent: parent, ticks: user + system}, nil
}
