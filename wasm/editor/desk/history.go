package desk

import (
	"errors"
	"fmt"

	"openwork/pattern"
)

// History is the open draft's history for the page, which keeps it: each step by its number, and where the draft rests.
type History struct {
	Steps   []pattern.Step `json:"steps"`
	Now     int            `json:"now"`     // index in Steps
	Resting bool           `json:"resting"` // no gesture is under way; while one is, Now is the step before it
}

// History returns the history as it is now.
func (s *Session) History() History {
	steps, now := s.history.Steps()
	return History{steps, now, s.history.Resting()}
}

// StepText returns the draft's file at a step of the history; "" when there is no such step.
func (s *Session) StepText(id int) string { return s.history.Text(id) }

// Restore puts a draft with its history on the desk, as History and StepText gave them: texts are the drafts' files,
// one for each step. On an error what was open stays.
func (k *Desk) Restore(kept History, texts []string) error {
	h, err := pattern.RestoredHistory(kept.Steps, texts, kept.Now)
	if err != nil {
		return fmt.Errorf("the draft that was kept could not be read: %w", err)
	}
	k.begin(h)
	return nil
}

// Visit goes to a step of the history, back or forward.
func (k *Desk) Visit(id int) error {
	k.dropHand()
	there := k.Session.history.Visit(id)
	k.Session.sel.Keep(k.Session.Draft())
	k.finish(true) // it may have gone part of the way
	if !there {
		return errors.New("that step is no longer in the history")
	}
	return nil
}
