# Starts the rig on a pseudo-terminal, runs the client on it, ends the rig. Prints
# what the client said and what the pins did, their times replaced by their order.
#     sh client.sh PIN PIN PIN PIN
./rig -u line -v pins.vcd image.elf >said 2>&1 &
rig=$!
trap 'kill $rig 2>/dev/null' EXIT
tries=0
until [ -e line ]; do
	tries=$((tries + 1))
	[ $tries -lt 500 ] || { cat said >&2; exit 1; }
	sleep 0.02
done
node client.mjs line "$@" || exit 1
kill $rig
wait $rig || { cat said >&2; exit 1; }
awk '/^#/ { print "#" ++n * 1000; next } { print }' pins.vcd
