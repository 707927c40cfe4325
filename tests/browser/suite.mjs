// The report page as a reader meets it: in a browser.
import "./quiet.mjs";
import "./live.mjs";
import "./names.mjs";
import "./looks.mjs";
import "./print.mjs";
import "./reach.mjs";
