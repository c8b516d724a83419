// Files that the build puts into the script as they are.
declare module "*.json" {
  const text: string;
  export default text;
}
declare module "engine-worker" {
  const script: string;
  export default script;
}
