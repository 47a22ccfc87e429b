/**
 * Speed of hand on pages that work without it. htmx reads the attributes of the pages (progress polls, searches as
 * typed); its settings stand in the layout's <meta name="htmx-config">, because the policy of these pages forbids eval
 * and styles from script. Each of the others starts only where a page asks for it.
 */
import "htmx.org";
import { startBusySign } from "./busy";
import { startDitto } from "./ditto";
import { startKeys } from "./keys";
import { startLeaveGuard } from "./leave-guard";
import { startPrinting } from "./print";
import { startScanLines } from "./scan-line";
import { startTheme } from "./theme";
import { tellWaitingScans } from "./waiting-scans";

startTheme();
startKeys();
startScanLines();
tellWaitingScans();
startDitto();
startLeaveGuard();
startBusySign();
startPrinting();
