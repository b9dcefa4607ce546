// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace sunspool::panelview {

/// Lets screen readers walk the handles of a PanelView. Called by every PanelView; does its work once.
void installAccessibility();

}  // namespace sunspool::panelview
