// Package overlay joins, cuts and intersects outlines, in millimetres with y upward.
//
// An outline is an orb.MultiPolygon: outer rings counter-clockwise, holes clockwise, every ring closed. Results are
// valid in the sense of OGC Simple Features (06-103r4, section 6.1.11): every ring is simple, pieces that touch only at
// points are polygons of their own, and a hole that touches its shell at a point stays a hole.
package overlay
