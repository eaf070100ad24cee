// Package geometry is plane geometry on orb types, in millimetres with y upward: maps, areas, distances, crossings and
// narrow places of outlines.
//
// An outline is an orb.MultiPolygon: outer rings counter-clockwise, holes clockwise, every ring closed (its last point
// repeats its first). Angles are radians, counter-clockwise. Nothing here panics on input and nothing rounds a
// coordinate unless its name says so. What needs a general overlay of polygons lives in package overlay, which is
// larger; this package links the standard library and orb alone, so that it can run in every frame.
package geometry
