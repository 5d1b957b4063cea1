/// What a tool does to the ground it moves: its roughness and how settled it is.
///
/// A tool that moves a share f of the surface leaves the mean of what it made and what it passed by: Ru' = f Ra +
/// (1 - f) Ru, Cf' = f + (1 - f) Cf (Cf = 1 just moved, 0.45 after seven years). Ra and the wear by rain are those of
/// factors/residue.h: rain takes exp(-0.07 inches - 0.006 EI) of what stands above the unit plot's 0.24 in.
/// @source AH 703 (1997) ch. 5 (from memory); the mean over the surface as that chapter does it for roughness, for Cf
/// our
///         reading
#pragma once

namespace soilhold::rotation {

/// Ru' in mm. @param left_by_tool_mm  Ra @param before_mm  Ru @param disturbed  f, 0..1
double roughness_after_mm(double left_by_tool_mm, double before_mm, double disturbed);

/// Years at rest that give the mean Cf after a pass. @param years  at rest before, >= 0 @param disturbed  f, 0..1
double years_at_rest_after(double years, double disturbed);

/// Years at rest that give Cf: the inverse of the consolidation subfactor. @param consolidation  0.45..1
double years_of_consolidation(double consolidation);

}  // namespace soilhold::rotation
