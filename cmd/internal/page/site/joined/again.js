import {
  keepClaim,
  regained,
  whole
} from "./shared-1.js";
export {
  keepClaim,
  regained,
  whole
};
